package pairline_test

import (
	"testing"
	"time"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// sink keeps results alive.
var sink float64

// manyLines is a large show: 500 links of four cables and three couplers each.
func manyLines() []pairline.Line {
	lines := make([]pairline.Line, 500)
	joint := connection("cat6a")
	for i := range lines {
		lines[i] = lineOf(
			reel("cat6a", 60), joint, joint, reel("cat5e", 10+float64(i%40)), joint, joint,
			reel("cat6", 5), joint, joint, reel("cat7", 30))
	}
	return lines
}

func BenchmarkLossOf500LinksOfFourSegments(b *testing.B) {
	lines := manyLines()
	b.ReportAllocs()
	for b.Loop() {
		for _, line := range lines {
			sink += line.Loss().At(pairline.GradeMHz)
		}
	}
}

func BenchmarkBuildAndLossOf500LinksOfFourSegments(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		for _, line := range manyLines() {
			sink += line.Loss().At(pairline.GradeMHz)
		}
	}
}

func BenchmarkValidateOneLink(b *testing.B) {
	line := manyLines()[0]
	b.ReportAllocs()
	for b.Loop() {
		if err := line.Validate(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCascadeAt512Points(b *testing.B) {
	line, grid := manyLines()[0], pairline.LogGrid(pairline.CascadePoints)
	b.ReportAllocs()
	for b.Loop() {
		sink += line.Responses(grid)[0].LossDB
	}
}

func BenchmarkWorstPoint(b *testing.B) {
	loss, grid := manyLines()[0].Loss(), pairline.LogGrid(pairline.AdditivePoints)
	b.ReportAllocs()
	for b.Loop() {
		margin, _ := pairline.WorstPoint(loss.At, pairline.LinkSegmentLimit, grid)
		sink += margin
	}
}

// piecesOf is a line of so many short pieces, each of another length, and the couplers between them.
func piecesOf(pieces int) pairline.Line {
	line := lineOf()
	joint := connection("cat6a")
	for i := range pieces {
		if i > 0 {
			line.Parts = append(line.Parts, joint, joint)
		}
		line.Parts = append(line.Parts, reel([]standards.CableSlug{"cat5e", "cat6a"}[i%2], 2.5+0.01*float64(i)))
	}
	return line
}

// The sweep for ringing grows with the pieces of a line and no faster: twice as many take about twice as long.
func BenchmarkTwiceThePiecesTakeTimesAsLong(b *testing.B) {
	took := map[int]time.Duration{}
	for b.Loop() {
		for _, pieces := range []int{32, 64} {
			line, begin := piecesOf(pieces), time.Now()
			sink += line.Reflections().RippleDB
			took[pieces] += time.Since(begin)
		}
	}
	b.ReportMetric(float64(took[64])/float64(took[32]), "times")
}

// Joints that are all alike are reckoned once a frequency: what they take beside joints that all differ.
func BenchmarkJointsAllAlikeBesideJointsThatDiffer(b *testing.B) {
	alike, differing := piecesOf(32), piecesOf(32)
	for i, part := range differing.Parts {
		if joint, is := part.(pairline.Interface); is {
			joint.ReturnLossDB += 0.001 * float64(i)
			differing.Parts[i] = joint
		}
	}
	took := [2]time.Duration{}
	for b.Loop() {
		for i, line := range []pairline.Line{alike, differing} {
			begin := time.Now()
			sink += line.Reflections().RippleDB
			took[i] += time.Since(begin)
		}
	}
	b.ReportMetric(float64(took[0])/float64(took[1]), "times")
}

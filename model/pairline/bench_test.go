package pairline_test

import (
	"testing"

	"stageloom/model/pairline"
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
		margin, _ := pairline.WorstPoint(loss, pairline.LinkSegmentLimit, grid)
		sink += margin
	}
}

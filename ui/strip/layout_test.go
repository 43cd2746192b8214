package strip_test

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/quantity"
	"stageloom/model/raster"
	"stageloom/model/raster/rastertest"
	"stageloom/ui/look"
	"stageloom/ui/strip"
)

// inkOnly is a palette of a few greys, so that masters do not follow each change of a colour.
var inkOnly = look.Palette{
	Ink: grey(0), Muted: grey(0x60), Strong: grey(0xC0), Panel: grey(0xFF), Stage: grey(0xEE), Selection: grey(0x10),
	Ample: grey(0x21), Enough: grey(0x22), Tight: grey(0x23), Over: grey(0x24), Uncabled: grey(0x25), Plain: grey(0x26),
}

func grey(v uint8) color.NRGBA { return color.NRGBA{R: v, G: v, B: v, A: 0xFF} }

// drawn records a run in a space of that size.
func drawn(run strip.Run, width, height float64, pointed int) *rastertest.Record {
	record := new(rastertest.Record)
	strip.LayOut(run, width, height).Draw(record, inkOnly, pointed)
	return record
}

// anyRun draws cables and joints as they can follow each other, with names of all lengths.
func anyRun(t *rapid.T) strip.Run {
	name := rapid.StringOfN(rapid.RuneFrom([]rune("AbcdefghiW 019·")), 0, 60, -1)
	run := strip.Run{
		Title: "Run of " + name.Draw(t, "title"), Note: name.Draw(t, "note"),
		Near: strip.End{Name: name.Draw(t, "near"), Port: name.Draw(t, "port")}, Far: strip.End{Name: name.Draw(t, "far")},
		Graded: rapid.Bool().Draw(t, "graded"), HasMargin: rapid.Bool().Draw(t, "has margin"),
		Grade:   rapid.SampledFrom([]string{"ample", "enough", "tight", "over", "uncabled", ""}).Draw(t, "grade"),
		LimitDB: rapid.Float64Range(0, 40).Draw(t, "limit"), MarginDB: rapid.Float64Range(-50, 40).Draw(t, "margin"),
		Length: rapid.Float64Range(0, 300).Draw(t, "length"),
		System: rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.Imperial}).Draw(t, "system"),
		Hint:   name.Draw(t, "hint"),
	}
	at, lossDB := 0.0, 0.0
	for range rapid.IntRange(0, 30).Draw(t, "parts") {
		part := strip.Part{
			What:    budget.What(rapid.IntRange(0, 5).Draw(t, "what")),
			Assumed: rapid.IntRange(0, 4).Draw(t, "assumed") == 0, Unknown: rapid.IntRange(0, 6).Draw(t, "unknown") == 0,
			Labels: rapid.SliceOfN(name, 0, 4).Draw(t, "labels"), Detail: name.Draw(t, "detail"),
			Start: at, BeforeDB: lossDB,
		}
		if part.What == budget.Cable || part.What == budget.Lead {
			part.Length = rapid.Float64Range(0.1, 120).Draw(t, "cable")
			part.LossDB = part.Length * rapid.Float64Range(0, 0.3).Draw(t, "loss a metre")
		} else {
			part.LossDB = rapid.Float64Range(0, 0.8).Draw(t, "loss")
		}
		at, lossDB = at+part.Length, lossDB+part.LossDB
		run.Parts = append(run.Parts, part)
	}
	return run
}

// noOverlap checks that no text lies on another or leaves the strip.
func noOverlap(t require.TestingT, words []rastertest.Word, width, height float64) {
	for i, a := range words {
		require.True(t, a.Box.Left >= 0 && a.Box.Right <= width && a.Box.Top >= 0 && a.Box.Bottom <= height, "%q leaves the strip: %v", a.Text, a.Box)
		for _, b := range words[:i] {
			require.False(t, a.Box.Outset(-1.5).Overlaps(b.Box.Outset(-1.5)), "%q lies on %q", a.Text, b.Text)
		}
	}
}

func TestNoTextLiesOnAnother(t *testing.T) {
	t.Run("whatever the run and the size", rapid.MakeCheck(func(t *rapid.T) {
		run := anyRun(t)
		width, height := rapid.Float64Range(320, 1700).Draw(t, "width"), rapid.Float64Range(96, 400).Draw(t, "height")
		noOverlap(t, drawn(run, width, height, rapid.IntRange(-1, 3).Draw(t, "pointed")).Words, width, height)
	}))
	t.Run("with twelve short pieces in a window 1280 and 1600 wide", func(t *testing.T) {
		for _, width := range []float64{930, 1250} {
			record := drawn(many(t), width, 215, -1)
			noOverlap(t, record.Words, width, 215)
			require.Contains(t, record.String(), `"14 joints lose`)
		}
	})
}

func TestLossLabelsKeepOffTheLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		run := anyRun(t)
		run.Graded, run.LimitDB = true, max(5, run.LimitDB)
		width, height := rapid.Float64Range(400, 1700).Draw(t, "width"), rapid.Float64Range(150, 400).Draw(t, "height")
		layout := strip.LayOut(run, width, height)
		for _, label := range layout.Labels {
			if !strings.HasPrefix(label.Text, "−") || label.Size != 12 {
				continue
			}
			for x := label.Box.Left; x <= label.Box.Right; x++ {
				y, drawn := layout.LossY(x)
				require.True(t, drawn)
				require.False(t, y > label.Box.Top && y < label.Box.Bottom, "the loss runs through %q", label.Text)
			}
		}
	})
}

func TestCablesAreToScale(t *testing.T) {
	layout := strip.LayOut(usual(t), 930, 215)
	require.InDelta(t, 70.0/45, layout.Cells[0].Width()/layout.Cells[2].Width(), 1e-9)
	require.InDelta(t, layout.Cells[0].Right, layout.Cells[1].Centre().X, 1, "the coupler stands where the cables meet")
}

func TestNamesOfCablesLieWithinThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		run := anyRun(t)
		layout := strip.LayOut(run, rapid.Float64Range(320, 1700).Draw(t, "width"), 215)
		for _, label := range layout.Labels {
			for i, cell := range layout.Cells {
				cable := run.Parts[i].What == budget.Cable || run.Parts[i].What == budget.Lead
				if cable && cell.Overlaps(label.Box.Outset(-2)) && cell.Contains(label.Box.Centre()) {
					require.True(t, label.Box.Left >= cell.Left && label.Box.Right <= cell.Right, "%q sticks out", label.Text)
				}
			}
		}
	})
}

func TestThePartUnderThePointer(t *testing.T) {
	layout := strip.LayOut(usual(t), 930, 215)
	middle := func(i int) raster.Point { return layout.Cells[i].Centre() }
	for i := range layout.Cells {
		got, some := layout.PartAt(middle(i))
		require.True(t, some)
		require.Equal(t, i, got)
	}
	_, some := layout.PartAt(raster.Point{X: 3, Y: 3})
	require.False(t, some)
	t.Run("is told in full beside the title", func(t *testing.T) {
		require.Contains(t, drawn(usual(t), 930, 215, 1).String(), `"coupler · Cat 6A hardware · 2 mated connections · 0.6 dB"`)
	})
}

func TestAStripWithNothingToShowSaysWhatToDo(t *testing.T) {
	record := drawn(strip.Run{Title: "Run of L15", Hint: "No cable yet: pick some for this link."}, 930, 215, -1)
	require.Contains(t, record.String(), `"No cable yet: pick some for this link."`)
	require.Empty(t, strip.LayOut(strip.Run{}, 930, 215).Cells)
}

func TestARunThatCarriesNoGradeShowsNoDecibels(t *testing.T) {
	run := usual(t)
	run.Graded, run.HasMargin = false, false
	require.NotContains(t, drawn(run, 930, 215, -1).String(), "dB")
}

func TestOddFiguresDrawNoNonsense(t *testing.T) {
	odd := rapid.SampledFrom([]float64{0, -1, 1e-300, 1e300, math.NaN(), math.Inf(1), math.Inf(-1), 50})
	rapid.Check(t, func(t *rapid.T) {
		run := anyRun(t)
		run.Length, run.LimitDB, run.MarginDB = odd.Draw(t, "length"), odd.Draw(t, "limit"), odd.Draw(t, "margin")
		for i := range run.Parts {
			if rapid.IntRange(0, 9).Draw(t, "spoil") == 0 {
				run.Parts[i].Start, run.Parts[i].Length, run.Parts[i].LossDB = odd.Draw(t, "start"), odd.Draw(t, "cable"), odd.Draw(t, "dB")
			}
		}
		require.NotPanics(t, func() {
			drawing := raster.NewDrawing(1)
			width, height := rapid.Float64Range(-10, 900).Draw(t, "width"), rapid.Float64Range(-10, 300).Draw(t, "height")
			strip.LayOut(run, width, height).Draw(drawing, look.Palettes()[0], 0)
			drawing.Paint(image.NewRGBA(image.Rect(0, 0, 50, 50)))
		})
	})
}

func TestTheDrawingOfAUsualRun(t *testing.T) {
	requireGolden(t, "usual", drawn(usual(t), 930, 215, -1).String())
	requireGolden(t, "many", drawn(many(t), 930, 215, -1).String())
}

// requireGolden compares a text with its master in testdata; one that differs is written to testdata/failed, to be
// looked at and moved over the master if it is right.
func requireGolden(t *testing.T, name, got string) {
	t.Helper()
	master := filepath.Join("testdata", name+".txt")
	wanted, err := os.ReadFile(master)
	if err == nil && string(wanted) == got {
		return
	}
	failed := filepath.Join("testdata", "failed", name+".txt")
	require.NoError(t, os.MkdirAll(filepath.Dir(failed), 0o755))
	require.NoError(t, os.WriteFile(failed, []byte(got), 0o644))
	require.Equal(t, string(wanted), got, fmt.Sprintf("see %s", failed))
}

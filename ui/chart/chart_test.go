package chart_test

import (
	"image"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/medium"
	"stageloom/model/pairline"
	"stageloom/model/raster"
	"stageloom/model/raster/rastertest"
	"stageloom/model/standards"
	"stageloom/ui/chart"
	"stageloom/ui/look"
)

// tight is 24.9 dB at 100 MHz under the field rule.
func tight() budget.Budget {
	pair := medium.Pair{}
	loss := medium.Loss{2.2, 0.028, 0.1}
	return budget.Budget{
		Graded: true, Grade: budget.Tight, TransportName: "AES50", Rule: "aes50-field", LimitDB: 25,
		Medium: pair, Loss: loss, LossDB: pair.DB(loss, standards.Transport{}), MarginDB: 25 - pair.DB(loss, standards.Transport{}),
	}
}

func TestTheCurvesOfALink(t *testing.T) {
	t.Run("a link under the field rule shows the standard's curve and the figure that grades beside it", func(t *testing.T) {
		c := chart.Of(tight())
		require.Equal(t, pairline.Point{FreqMHz: 100, DB: 25}, c.Verdict)
		limit, some := c.Limit.At(100)
		require.True(t, some)
		require.InDelta(t, 24.0, limit, 0.05, "IEEE 802.3 40.7.2.1 at 100 MHz, from memory")
		require.Equal(t, "100 MHz: 24.9 of 25.0 dB, +0.1", c.Summary())
		require.Equal(t, "100 MHz: 24.9 of 24.0 dB, −0.9 to the standard's limit", c.ReadOut(100))
	})
	t.Run("a link under a standard's rule has one limit", func(t *testing.T) {
		b := tight()
		b.Rule = "ieee-link-segment"
		c := chart.Of(b)
		require.Empty(t, c.VerdictName)
		require.Equal(t, "limit", c.Limit.Name)
		require.Equal(t, "100 MHz: 24.9 of 24.0 dB, −0.9", c.ReadOut(100))
	})
	t.Run("the worst point is where least is left", func(t *testing.T) {
		c := chart.Of(tight())
		limit, _ := c.Limit.At(c.Worst.FreqMHz)
		for i, at := range c.Loss.Points {
			require.GreaterOrEqual(t, c.Limit.Points[i].DB-at.DB, limit-c.Worst.DB-1e-9)
		}
	})
	t.Run("a link without a budget says so", func(t *testing.T) {
		require.Equal(t, "MADI carries no loss budget here", chart.Of(budget.Budget{TransportName: "MADI"}).Hint)
		require.NotEmpty(t, chart.Of(budget.Budget{Graded: true, Grade: budget.Uncabled}).Hint)
	})
	t.Run("a rule that this program does not know leaves the loss alone", func(t *testing.T) {
		b := tight()
		b.Rule = "of-another-edition"
		c := chart.Of(b)
		require.Empty(t, c.Limit.Points)
		require.Equal(t, "20 MHz: 10.5 dB", c.ReadOut(20))
	})
}

func TestFiguresOfAChartAddAsTheyArePrinted(t *testing.T) {
	figures := regexp.MustCompile(`[−+]?\d+\.\d`)
	tenths := func(text string) int {
		value, err := strconv.ParseFloat(strings.NewReplacer("−", "-").Replace(text), 64)
		require.NoError(t, err)
		return int(math.Round(value * 10))
	}
	above := chart.Curves{
		Above: true, Loss: chart.Curve{Name: "return loss", Points: []pairline.Point{{FreqMHz: 1, DB: 30}, {FreqMHz: 100, DB: 17.03}}},
		Limit: chart.Curve{Name: "limit", Points: []pairline.Point{{FreqMHz: 1, DB: 20}, {FreqMHz: 100, DB: 13.38}}},
	}
	for freq := 10.0; freq <= 100; freq += 0.7 {
		for _, c := range []chart.Curves{chart.Of(tight()), above} {
			_, said, _ := strings.Cut(c.ReadOut(freq), ": ")
			read := figures.FindAllString(said, 3)
			require.Len(t, read, 3, said)
			value, limit, left := tenths(read[0]), tenths(read[1]), tenths(read[2])
			exact, _ := c.Limit.At(freq)
			if c.Above {
				value, limit = limit, value
				require.GreaterOrEqual(t, float64(value), exact*10-1e-6, "the least is never printed lower: %s", said)
			} else {
				require.LessOrEqual(t, float64(limit), exact*10+1e-6, "the most is never printed higher: %s", said)
			}
			require.Equal(t, limit-value, left, said)
		}
	}
}

func TestReadingACurve(t *testing.T) {
	curve := chart.Curve{Name: "loss", Points: []pairline.Point{{FreqMHz: 1, DB: 2}, {FreqMHz: 100, DB: 6}}}
	t.Run("between two points it is straight on the logarithmic axis", func(t *testing.T) {
		dB, some := curve.At(10)
		require.True(t, some)
		require.InDelta(t, 4, dB, 1e-12)
	})
	t.Run("beside its points it has no value", func(t *testing.T) {
		_, some := curve.At(0.9)
		require.False(t, some)
		_, some = curve.At(100.1)
		require.False(t, some)
	})
	t.Run("where a value is no number it has none", func(t *testing.T) {
		_, some := chart.Curve{Points: []pairline.Point{{FreqMHz: 1, DB: math.Inf(1)}, {FreqMHz: 9, DB: 1}}}.At(2)
		require.False(t, some)
	})
}

// draw records a chart.
func draw(c chart.Curves, width, height, hoverMHz float64) *rastertest.Record {
	record := new(rastertest.Record)
	c.Draw(record, width, height, look.Palettes()[0], hoverMHz)
	return record
}

func TestTheAxes(t *testing.T) {
	record := draw(chart.Of(tight()), 280, 230, 0)
	// Of two texts that read alike the decibels come first.
	at := func(text string, last bool) raster.Point {
		found := raster.Point{X: math.NaN()}
		for _, word := range record.Words {
			if word.Text == text && (last || math.IsNaN(found.X)) {
				found = raster.Point{X: word.Box.Centre().X, Y: word.At.Y}
			}
		}
		return found
	}
	t.Run("a decade is as wide as any other", func(t *testing.T) {
		require.InDelta(t, at("10", true).X-at("1", true).X, at("30", true).X-at("3", true).X, 0.01)
	})
	t.Run("decibels run downwards in equal steps", func(t *testing.T) {
		require.Greater(t, at("20", false).Y, at("0 dB", false).Y)
		require.InDelta(t, at("20", false).Y-at("0 dB", false).Y, 2*(at("15", false).Y-at("5", false).Y), 0.01)
	})
	t.Run("all texts are there", func(t *testing.T) {
		var texts []string
		for _, word := range record.Words {
			texts = append(texts, word.Text)
		}
		require.Equal(t, "Loss over frequency|0 dB|5|10|15|20|25|30|100 MHz|30|10|3|1|100 MHz: 24.9 of 25.0 dB, +0.1|"+
			"loss|standard's limit|field rule|worst −0.9 at 100 MHz", strings.Join(texts, "|"))
	})
}

func TestNoTextOverlapsOrLeavesTheChart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := tight()
		factor := rapid.Float64Range(0.01, 30).Draw(t, "factor")
		b.Loss = b.Loss.Times(factor)
		b.Grade = rapid.SampledFrom(budget.Grades()[:4]).Draw(t, "grade")
		c := chart.Of(b)
		for _, name := range rapid.SliceOfN(rapid.SampledFrom([]string{"return loss", "a very long name that fits in no row of the key at all, really"}), 0, 3).Draw(t, "more") {
			c.More = append(c.More, chart.Curve{Name: name, Points: pairline.Sample(pairline.ReturnLossLimit, pairline.LogGrid(20))})
		}
		width, height := rapid.Float64Range(180, 600).Draw(t, "width"), rapid.Float64Range(170, 500).Draw(t, "height")
		words := draw(c, width, height, rapid.SampledFrom([]float64{0, 1, 31.6, 100}).Draw(t, "hover")).Words
		room := raster.Box{Left: -0.01, Top: -0.01, Right: width + 0.01, Bottom: height + 0.01}
		for i, a := range words {
			require.True(t, a.Box.Left >= room.Left && a.Box.Right <= room.Right && a.Box.Bottom <= room.Bottom+2,
				"%q leaves the chart: %v", a.Text, a.Box)
			for _, b := range words[:i] {
				require.False(t, a.Box.Outset(-1.5).Overlaps(b.Box.Outset(-1.5)), "%q lies on %q", a.Text, b.Text)
			}
		}
	})
}

func TestAChartWithoutRoomOrSenseDrawsNoNonsense(t *testing.T) {
	odd := rapid.SampledFrom([]float64{0, -5, 1e-300, 1e300, math.NaN(), math.Inf(1), math.Inf(-1), 12, 100})
	rapid.Check(t, func(t *rapid.T) {
		curve := chart.Curve{Name: "odd"}
		for range rapid.IntRange(0, 5).Draw(t, "points") {
			curve.Points = append(curve.Points, pairline.Point{FreqMHz: odd.Draw(t, "MHz"), DB: odd.Draw(t, "dB")})
		}
		c := chart.Of(tight())
		c.Loss, c.More = curve, []chart.Curve{curve}
		c.Verdict.DB, c.Worst.FreqMHz = odd.Draw(t, "verdict"), odd.Draw(t, "worst")
		width, height := rapid.Float64Range(0, 300).Draw(t, "width"), rapid.Float64Range(0, 300).Draw(t, "height")
		drawing := raster.NewDrawing(1)
		require.NotPanics(t, func() {
			c.Draw(drawing, width, height, look.Palettes()[0], 20)
			drawing.Paint(image.NewRGBA(image.Rect(0, 0, 60, 60)))
		})
	})
}

func TestTheWidget(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.NewTheme(look.PaletteNamed("dark")))
	shown := chart.New(chart.Of(tight()))
	window := test.NewTempWindow(t, shown)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(280, 230))
	capture := func() *image.NRGBA { return window.Canvas().Capture().(*image.NRGBA) }
	still := capture()

	t.Run("it is painted on the panel's ground of the theme", func(t *testing.T) {
		panel := look.PaletteNamed("dark").Panel
		require.Equal(t, panel, still.NRGBAAt(277, 20))
	})
	t.Run("the pointer over the plot changes it, and away from it it is as before", func(t *testing.T) {
		shown.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(120, 90)}})
		require.NotEqual(t, still.Pix, capture().Pix)
		shown.MouseOut()
		require.Equal(t, still.Pix, capture().Pix)
	})
	t.Run("the pointer beside the plot changes nothing", func(t *testing.T) {
		shown.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(5, 5)}})
		require.Equal(t, still.Pix, capture().Pix)
	})
	t.Run("other curves and another theme show at once", func(t *testing.T) {
		shown.Set(chart.Curves{Hint: "no cable of known loss yet"})
		empty := capture()
		require.NotEqual(t, still.Pix, empty.Pix)
		app.Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
		require.NotEqual(t, empty.Pix, capture().Pix)
	})
	t.Run("at twice the scale it has four times the pixels", func(t *testing.T) {
		shown.Set(chart.Of(tight()))
		window.Canvas().(test.WindowlessCanvas).SetScale(2)
		require.Equal(t, image.Rect(0, 0, 560, 460), window.Canvas().Capture().Bounds())
	})
}

package panel_test

import (
	"bytes"
	"fmt"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/look"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// show puts an object into a window of a size, in the light look.
func show(t *testing.T, object fyne.CanvasObject, width, height float32) fyne.Window {
	t.Helper()
	w := test.NewTempWindow(t, object)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	return w
}

func start(t *testing.T) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
}

func TestTheCardAsMarkup(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for name, ref := range map[string]plan.Ref{"link": linkNamed(p, "L02"), "position": positionNamed(p, "FOH tower")} {
		t.Run(name, func(t *testing.T) {
			start(t)
			card := panel.NewCardView(canvas.NewRectangle(nil), func(plan.Ref) {})
			w := show(t, card, 280, 500)
			card.Set(text.CardOf(a, []plan.Ref{ref}, words.Units{}, text.Preview{}))
			test.AssertRendersToMarkup(t, "card-"+name+".xml", w.Canvas())
		})
	}
}

func TestFiguresOfACardChangeInPlace(t *testing.T) {
	start(t)
	p := demo.Weekender()
	a := assess.Of(p)
	card := panel.NewCardView(canvas.NewRectangle(nil), func(plan.Ref) {})
	w := show(t, card, 280, 500)
	c := text.CardOf(a, []plan.Ref{linkNamed(p, "L02")}, words.Units{}, text.Preview{})
	card.Set(c)
	before := test.RenderToMarkup(w.Canvas())
	c.Figures = append([]text.Figure(nil), c.Figures...)
	c.Figures[0].Value = "999 m"
	card.Set(c)
	require.Contains(t, test.RenderToMarkup(w.Canvas()), "999 m")
	require.NotContains(t, before, "999 m")
}

func TestTheOverviewAsMarkupAndItsClicks(t *testing.T) {
	start(t)
	a := assess.Of(demo.Weekender())
	var shown []plan.Ref
	overview := panel.NewOverview(look.NewInks(look.PaletteNamed("light")), func() []plan.Ref { return nil }, func(ref plan.Ref) { shown = append(shown, ref) })
	w := show(t, overview, 1200, 40)
	overview.Set(text.OverviewOf(a, text.Preview{}))
	test.AssertRendersToMarkup(t, "overview.xml", w.Canvas())
	test.TapCanvas(w.Canvas(), fyne.NewPos(30, 20))
	require.Len(t, shown, 1)
	require.Equal(t, "L01", linkName(a.Plan, shown[0]))
}

func linkName(p *plan.Plan, ref plan.Ref) string {
	link, _ := p.Links.Get(ref.Key)
	return link.Name
}

func TestTheNoticeIsHiddenUntilThereIsSomethingToSay(t *testing.T) {
	start(t)
	notice := panel.NewNotice(nil)
	show(t, notice, 600, 60)
	require.False(t, notice.Visible())
	notice.Warn("The disk is full.")
	require.True(t, notice.Visible())
	require.Equal(t, "The disk is full.", notice.Text())
	notice.Tell(checks.Finding{What: "L20 has no cable yet", Remedy: "Pick a cable for it."})
	require.Equal(t, "L20 has no cable yet. Pick a cable for it.", notice.Text())
	notice.Clear()
	require.False(t, notice.Visible())
	require.Empty(t, notice.Text())
}

func objectName(object fyne.CanvasObject) string { return fmt.Sprintf("%T", object) }

func TestThePanelsAtTheLeftFollowTheLook(t *testing.T) {
	p := demo.Weekender()
	for name, made := range map[string]func() fyne.CanvasObject{
		"equipment": func() fyne.CanvasObject { return panel.NewEquipment(p) },
		"stock": func() fyne.CanvasObject {
			list := panel.NewStockList(p, func() {})
			list.Set(p, words.Units{})
			return list
		},
	} {
		t.Run(name, func(t *testing.T) {
			start(t)
			pixels := func(w fyne.Window) []byte { return w.Canvas().Capture().(*image.NRGBA).Pix }
			for _, palette := range []string{"dark", "high contrast", "light"} {
				switched := show(t, made(), 220, 700)
				fyne.CurrentApp().Settings().SetTheme(look.NewTheme(look.PaletteNamed(palette)))
				fresh := show(t, made(), 220, 700)
				require.True(t, bytes.Equal(pixels(fresh), pixels(switched)), "%s: something kept the look before", palette)
			}
		})
	}
}

func TestThePanelsAtTheLeftAndTheNoticeAsMarkup(t *testing.T) {
	p := demo.Weekender()
	for name, made := range map[string]func() fyne.CanvasObject{
		"equipment": func() fyne.CanvasObject { return panel.NewEquipment(p) },
		"stock": func() fyne.CanvasObject {
			list := panel.NewStockList(p, func() {})
			list.Set(p, words.Units{})
			return list
		},
		"notice": func() fyne.CanvasObject {
			notice := panel.NewNotice(nil)
			notice.Tell(checks.Finding{What: "L20 has no cable yet", Remedy: "Pick a cable for it."})
			return notice
		},
	} {
		t.Run(name, func(t *testing.T) {
			start(t)
			w := show(t, made(), 220, 300)
			test.AssertRendersToMarkup(t, name+".xml", w.Canvas())
		})
	}
}

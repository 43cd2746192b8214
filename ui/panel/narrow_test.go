package panel_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/look"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// box is where something is drawn in the window.
type box struct {
	words                    string
	left, top, right, bottom float32
}

// boxesOf are the lines that are drawn outside of fields, as wide as their letters are, and the fields themselves.
func boxesOf(object fyne.CanvasObject) (boxes []box) {
	var walk func(fyne.CanvasObject)
	add := func(of fyne.CanvasObject, words string, size fyne.Size) {
		at := placeOf(of)
		boxes = append(boxes, box{words, at.X, at.Y, at.X + size.Width, at.Y + size.Height})
	}
	inside := map[fyne.CanvasObject]bool{}
	walk = func(of fyne.CanvasObject) {
		seen(of, func(each fyne.CanvasObject) {
			switch is := each.(type) {
			case interface{ Inner() *widget.Entry }:
				add(each, "field", each.Size())
				seen(each, func(part fyne.CanvasObject) { inside[part] = true })
			case interface{ Inner() *widget.Select }:
				add(each, "list", each.Size())
				seen(each, func(part fyne.CanvasObject) { inside[part] = true })
			case *canvas.Text:
				if !inside[each] && strings.TrimSpace(is.Text) != "" {
					add(each, is.Text, is.MinSize())
				}
			}
		})
	}
	walk(object)
	return boxes
}

// requireApart fails where something is drawn over something else or beyond the edge. A few points of each line's height are
// no letters.
func requireApart(t *testing.T, object fyne.CanvasObject, width float32, of string) {
	t.Helper()
	boxes := boxesOf(object)
	require.NotEmpty(t, boxes)
	for i, a := range boxes {
		require.LessOrEqual(t, a.right, width+1, "%s: %q is cut at the edge", of, a.words)
		require.GreaterOrEqual(t, a.left, float32(-1), "%s: %q", of, a.words)
		for _, b := range boxes[i+1:] {
			over := min(a.right, b.right)-max(a.left, b.left) > 1 && min(a.bottom, b.bottom)-max(a.top, b.top) > 5
			require.False(t, over, "%s: %q and %q are drawn over each other", of, a.words, b.words)
		}
	}
}

func TestNothingOfACardIsDrawnOverAnotherAtItsLeastWidth(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for _, units := range []words.Units{{}, imperial} {
		for _, table := range []string{"", plan.LinksTable, plan.SegmentsTable, plan.ReelsTable, plan.DevicesTable, plan.PositionsTable, plan.InputsTable, plan.OutputsTable, plan.ActsTable, plan.LoomsTable} {
			start(t)
			card := panel.NewCardView(canvas.NewRectangle(nil), func(plan.Ref) {})
			width := card.MinSize().Width
			w := show(t, card, width, 2600)
			var selection []plan.Ref
			if table != "" {
				selection = []plan.Ref{firstOf(t, p, table)}
			}
			card.Set(text.CardOf(a, selection, units, text.Preview{}))
			card.Form.Set(text.FormOf(a, selection, units))
			w.Resize(fyne.NewSize(width, 2600))
			requireApart(t, card, width, fmt.Sprint(table, units))
		}
	}
}

// firstOf is the first row of a table of a plan.
func firstOf(t *testing.T, p *plan.Plan, table string) plan.Ref {
	t.Helper()
	of, found := plan.TableNamed(table)
	require.True(t, found, table)
	for row := range of.Rows(p) {
		return plan.Ref{Table: table, Key: of.KeyOf(row)}
	}
	t.Fatalf("the plan has no %s", table)
	return plan.Ref{}
}

func TestEveryLinkOfTheDemoHasACardWithoutOverlap(t *testing.T) {
	start(t)
	p := demo.Weekender()
	a := assess.Of(p)
	card := panel.NewCardView(canvas.NewRectangle(nil), func(plan.Ref) {})
	w := show(t, card, card.MinSize().Width, 1600)
	for link := range p.Links.All() {
		card.Set(text.CardOf(a, []plan.Ref{plan.RefOf(link)}, imperial, text.Preview{}))
		w.Resize(fyne.NewSize(card.MinSize().Width, 1600))
		requireApart(t, card, card.MinSize().Width, link.Name)
	}
}

func TestLongNamesInAnyScriptFitTheCard(t *testing.T) {
	start(t)
	card := panel.NewCardView(canvas.NewRectangle(nil), func(plan.Ref) {})
	width := card.MinSize().Width
	w := show(t, card, width, 900)
	for _, name := range []string{strings.Repeat("Front of house drop ", 10), strings.Repeat("x", 200), strings.Repeat("منصة الصوت ", 18), strings.Repeat("🎚🎛", 60)} {
		facts := linkFacts()
		facts.Title, facts.Subtitle = "Link "+name, name+" → "+name
		facts.Findings[0].What, facts.Findings[0].Remedy = name+" is too long", "Shorten "+name
		card.Set(facts)
		w.Resize(fyne.NewSize(width, 900))
		require.InDelta(t, width, card.MinSize().Width, 0.1, "no name makes the card wider")
		requireApart(t, card, width, name)
	}
}

func TestTheStudyStandsApartAndNamesEachKindOnce(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for link := range p.Links.All() {
		study := text.StudyOf(a, link.ID, words.Units{})
		if link.Name != "L01" && link.Name != "L02" && study.Hint == "" {
			continue
		}
		start(t)
		view := panel.NewStudyView(study, nil)
		show(t, view, 1180, 640)
		charts := 0
		seen(view, func(each fyne.CanvasObject) {
			if strings.HasPrefix(objectName(each), "*chart.") {
				charts++
			}
		})
		told := map[string]int{}
		bold := map[string]bool{}
		for _, line := range allOf[*canvas.Text](view) {
			told[line.Text]++
			bold[line.Text] = bold[line.Text] || line.TextStyle.Bold
		}
		for _, row := range study.Reaches {
			require.Equal(t, 1, told[row.Kind], "%s of %s", row.Kind, link.Name)
			require.Equal(t, row.Used, bold[row.Kind], row.Kind)
		}
		if study.Hint != "" {
			require.Zero(t, charts, link.Name)
			require.Contains(t, labelsOf(view), study.Hint)
			continue
		}
		require.Equal(t, 3, charts)
		used := 0
		for segment := range p.Segments.All() {
			if segment.Link == link.ID {
				used++
			}
		}
		require.Positive(t, used)
		require.NotEmpty(t, study.Reaches)
	}
}

func TestACardIsRebuiltInAnotherLook(t *testing.T) {
	card, _, _ := cardOf(t, 900)
	card.Set(linkFacts())
	colours := func() (told []string) {
		for _, line := range allOf[*canvas.Text](card) {
			if line.Text == "72 m" {
				told = append(told, fmt.Sprint(line.Color))
			}
		}
		return told
	}
	light := colours()
	require.Len(t, light, 1)
	fyne.CurrentApp().Settings().SetTheme(look.NewTheme(look.PaletteNamed("dark")))
	card.Rebuild()
	require.NotEqual(t, light, colours())
	require.Equal(t, []string{fmt.Sprint(theme.Color(theme.ColorNameForeground))}, colours())
}

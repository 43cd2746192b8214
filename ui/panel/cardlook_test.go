package panel_test

import (
	"image/color"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/look"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// edgesOf are how far the letters of a card begin from its left edge, each once, in whole points.
func edgesOf(card *panel.CardView, leave ...string) (edges []int) {
	for _, line := range allOf[*canvas.Text](card) {
		if line.Text != "" && line.Alignment == fyne.TextAlignLeading && !slices.Contains(leave, line.Text) {
			if at := int(placeOf(line).X - placeOf(card).X + 0.5); !slices.Contains(edges, at) {
				edges = append(edges, at)
			}
		}
	}
	slices.Sort(edges)
	return edges
}

func TestACardHasOneMarginAndOnlyFindingsAreIndented(t *testing.T) {
	card, _, c := cardOf(t, 900)
	facts := linkFacts()
	facts.Link = ""
	card.Set(facts)
	require.Equal(t, []int{12, 36}, edgesOf(card, "72 m", "none", "AES50"), "an icon of 16 and a gap of 8")
	for _, line := range allOf[*canvas.Text](card) {
		switch line.Text {
		case "72 m", "none", "AES50":
			require.InDelta(t, c.Size().Width-12, placeOf(line).X-placeOf(card).X+line.MinSize().Width, 1, line.Text)
		}
	}
	for _, icon := range allOf[*widget.Icon](card) {
		require.Equal(t, fyne.NewSquareSize(16), icon.Size())
		require.InDelta(t, 12, placeOf(icon).X-placeOf(card).X, 0.6)
	}
}

func TestFiguresStandInPitches(t *testing.T) {
	card, _, _ := cardOf(t, 900)
	card.Set(text.Card{Title: "a", Figures: []text.Figure{{Name: "one", Value: "1 m", Note: "short"}, {Name: "two", Value: "2 m"}, {Name: "three", Value: "3 m"}}})
	tops := map[string]float32{}
	for _, line := range allOf[*canvas.Text](card) {
		tops[line.Text] = placeOf(line).Y
		switch line.Text {
		case "one", "short":
			require.Equal(t, float32(12), line.TextSize, line.Text)
			require.Equal(t, theme.Color(theme.ColorNamePlaceHolder), line.Color, line.Text)
		case "1 m":
			require.Equal(t, float32(16), line.TextSize)
			require.True(t, line.TextStyle.Bold)
		}
	}
	require.InDelta(t, 40, tops["two"]-tops["one"], 1)
	require.InDelta(t, 24, tops["three"]-tops["two"], 1)
}

func TestAMarginIsInTheInkOfItsGrade(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	seen := map[budget.Grade]bool{}
	for _, palette := range look.Palettes() {
		card, _, _ := cardOf(t, 900)
		fyne.CurrentApp().Settings().SetTheme(look.NewTheme(palette))
		for link := range p.Links.All() {
			facts := text.CardOf(a, []plan.Ref{plan.RefOf(link)}, words.Units{}, text.Preview{})
			if facts.Grade == budget.Ungraded {
				continue
			}
			card.Set(facts)
			seen[facts.Grade] = true
			inks := map[string]color.Color{}
			rows := allOf[*canvas.Text](card)
			for i, line := range rows[:len(rows)-1] {
				inks[line.Text] = rows[i+1].Color
			}
			require.Equal(t, palette.GradeInk(string(facts.Grade)), inks["margin"], "%s in %s", link.Name, palette.Name)
			require.NotEqual(t, inks["margin"], inks["run"], "%s in %s", link.Name, palette.Name)
			require.GreaterOrEqual(t, look.Contrast(palette.GradeInk(string(facts.Grade)), palette.Panel), 4.5)
		}
	}
	require.GreaterOrEqual(t, len(seen), 4)
}

func TestAFieldStandsWhereItStandsWhateverIsTyped(t *testing.T) {
	d := l02(t)
	where := func(name string) float32 {
		row, input := d.row(name)
		return placeOf(input).X - placeOf(row).X
	}
	require.InDelta(t, 112, where("Link")-4, 0.1)
	require.InDelta(t, 4, where("Wanted kind"), 0.1, "under its label")
	d.types("Link", "A name that is much wider than the field that it stands in")
	d.press(fyne.KeyReturn)
	d.selects()
	d.selects(linkNamed(d.plan, "A name that is much wider than the field that it stands in"))
	require.InDelta(t, 112, where("Link")-4, 0.1)
}

func TestFreePortsStandInOneRow(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	free := 0
	for device := range p.Devices.All() {
		card := text.CardOf(a, []plan.Ref{plan.RefOf(device)}, words.Units{}, text.Preview{})
		rows := 0
		for _, figure := range card.Figures {
			require.NotEqual(t, "free", figure.Value, device.Name)
			if strings.HasPrefix(figure.Note, "free: ") {
				rows++
			}
		}
		require.LessOrEqual(t, rows, 1, device.Name)
		free += rows
	}
	require.Positive(t, free)
}

func TestACardOfSeveralReadsTheirFindingsInFullAndOnce(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	one, two := linkNamed(p, "L02"), linkNamed(p, "L03")
	card, _, _ := cardOf(t, 900)
	facts := text.CardOf(a, []plan.Ref{one, two}, words.Units{}, text.Preview{})
	card.Set(facts)
	told := map[string]int{}
	for _, said := range labelsOf(card) {
		told[said]++
	}
	all := append(slices.Clone(a.FindingsAt(one.Table, one.Key)), a.FindingsAt(two.Table, two.Key)...)
	require.NotEmpty(t, all)
	for _, finding := range all {
		require.Equal(t, 1, told[strings.TrimRight(finding.What, ". ")+"."], finding.What)
	}
}

func TestANoteThatRepeatsAFindingIsSaidOnce(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	cut := 0
	for link := range p.Links.All() {
		card := text.CardOf(a, []plan.Ref{plan.RefOf(link)}, words.Units{}, text.Preview{})
		b, _ := a.Budget(link.ID)
		for _, figure := range card.Figures {
			said, _, _ := strings.Cut(figure.Note, ";")
			for _, finding := range card.Findings {
				require.False(t, said != "" && strings.Contains(finding.What, said), "%s: %s", link.Name, said)
			}
			if figure.Name == "margin" && b.HasMargin() && figure.Note == "" {
				cut++
			}
		}
	}
	require.Positive(t, cut, "a link of the demo is over or tight")
	free := text.CardOf(a, []plan.Ref{linkNamed(p, "L08")}, words.Units{}, text.Preview{})
	require.Contains(t, free.Figures[len(free.Figures)-1].Note+free.Figures[len(free.Figures)-2].Note, "dB", "where no finding says it the note stays")
}

func TestNothingThatAPlansFormSaysIsCut(t *testing.T) {
	p := demo.Weekender()
	card, _, _ := cardOf(t, 2600)
	card.Form.Set(text.FormOf(assess.Of(p), nil, words.Units{}))
	read := 0
	for _, entry := range allOf[interface{ Inner() *widget.Entry }](card) {
		inner := entry.Inner()
		said := inner.Text
		if said == "" {
			said = inner.PlaceHolder
		}
		for line := range strings.Lines(said) {
			wide := fyne.MeasureText(line, theme.TextSize(), fyne.TextStyle{}).Width
			require.True(t, inner.MultiLine || wide <= inner.Size().Width-2*theme.InnerPadding(), "%q in %v", line, inner.Size().Width)
		}
		read++
	}
	require.Greater(t, read, 8)
}

package panel_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
)

func TestAFormRefusesWhatCannotStandAndKeepsIt(t *testing.T) {
	for _, c := range []struct{ field, typed, why string }{
		{"Rise at near end", "3 parsec", "no unit of length"},
		{"Rise at near end", "600", "between 0 m and 500 m"},
		{"Rise at near end", "\u200fثلاثة 🎚", "ثلاثة"},
		{"Slack along the way", "101 %", "between 0 % and 100 %"},
		{"Link", " ", "cannot be left blank"},
		{"Link", strings.Repeat("ñ", 201), "at most 200"},
		{"Priority", "high", "no whole number"},
		{"Cable temperature", "90", "between −20 °C and 60 °C"},
	} {
		t.Run(c.typed, func(t *testing.T) {
			d := l02(t)
			was := d.plan
			d.types(c.field, c.typed)
			d.press(fyne.KeyReturn)
			require.Contains(t, d.fault(c.field), c.why)
			require.False(t, strings.HasPrefix(d.fault(c.field), "not changed"), d.fault(c.field))
			require.Less(t, len([]rune(d.fault(c.field))), 200, "what is quoted is clipped")
			d.canvas.Unfocus()
			require.Equal(t, c.typed, d.entry(c.field).Text, "what was typed stays")
			require.NotEmpty(t, d.fault(c.field))
			require.False(t, d.view.Keep(), "who prints is told that something is not kept")
			require.Same(t, was, d.plan)
			require.Empty(t, d.steps)
			d.selects(linkNamed(d.plan, "L03"))
			require.NotEqual(t, c.typed, d.entry(c.field).Text)
			require.Empty(t, d.fault(c.field), "the other link has nothing to do with it")
			require.True(t, d.view.Keep())
			d.selects(linkNamed(d.plan, "L02"))
			require.Equal(t, c.typed, d.entry(c.field).Text)
			require.Contains(t, d.fault(c.field), c.why)
			_, input := d.row(c.field)
			d.canvas.Focus(input.(fyne.Focusable))
			d.press(fyne.KeyEscape)
			require.NotEqual(t, c.typed, d.entry(c.field).Text)
			require.Empty(t, d.fault(c.field))
			require.True(t, d.view.Keep())
			d.view.Rebuild()
			require.NotEqual(t, c.typed, d.entry(c.field).Text, "what was put back does not come again")
		})
	}
}

func TestWhatIsTypedForOneLinkNeverStandsAtAnother(t *testing.T) {
	for typed, kept := range map[string]bool{"much": false, "12": true} {
		t.Run(typed, func(t *testing.T) {
			d := l02(t)
			other := d.link("L03").RiseFrom
			d.types("Rise at near end", typed)
			d.selects(linkNamed(d.plan, "L03")) // with the cursor still in the field
			d.view.Rebuild()                    // as with another theme
			require.NotEqual(t, typed, d.entry("Rise at near end").Text)
			require.Empty(t, d.fault("Rise at near end"))
			require.InDelta(t, other, d.link("L03").RiseFrom, 0)
			d.selects(linkNamed(d.plan, "L02"))
			if kept {
				require.InDelta(t, 12, d.link("L02").RiseFrom, 1e-9)
				require.Equal(t, "12 m", d.entry("Rise at near end").Text)
				require.Empty(t, d.fault("Rise at near end"))
				return
			}
			require.Equal(t, "much", d.entry("Rise at near end").Text)
			require.NotEmpty(t, d.fault("Rise at near end"))
		})
	}
}

func TestAFieldFollowsThePlanUnlessSomebodyTypesInIt(t *testing.T) {
	d := l02(t)
	change := func(metres float64) {
		next, err := plan.Do(d.plan, nil, func(e *plan.Edit) error {
			return plan.Update(e, d.selected[0].Key, func(link *plan.Link) { link.RiseFrom, link.RiseTo = metres, metres })
		})
		require.NoError(t, err)
		d.plan = next
		d.set()
	}
	change(2)
	require.Equal(t, "2 m", d.entry("Rise at near end").Text)
	d.types("Rise at near end", "5")
	change(3)
	require.Equal(t, "5", d.entry("Rise at near end").Text, "somebody is typing")
	require.Equal(t, "3 m", d.entry("Rise at far end").Text)
	d.press(fyne.KeyEscape)
	require.Equal(t, "3 m", d.entry("Rise at near end").Text, "what the plan has now")
	require.InDelta(t, 3, d.link("L02").RiseFrom, 1e-9)
}

func TestABlankFieldSaysWhatHoldsInstead(t *testing.T) {
	d := l02(t)
	d.types("Cable temperature", "41")
	d.press(fyne.KeyReturn)
	require.InDelta(t, 41, d.link("L02").Temperature.Or(0), 1e-9)
	d.types("Cable temperature", "")
	d.press(fyne.KeyReturn)
	require.Equal(t, plan.Optional{}, d.link("L02").Temperature, "blank takes it back")
	inherited := d.entry("Cable temperature").PlaceHolder
	require.Contains(t, inherited, "°C")
	next, err := plan.Do(d.plan, nil, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Temperature = plan.Some(33)
		e.SetSettings(settings)
		return nil
	})
	require.NoError(t, err)
	d.plan = next
	d.set()
	require.Contains(t, d.entry("Cable temperature").PlaceHolder, "33 °C", "the plan's figure")
	require.Empty(t, d.entry("Cable temperature").Text)
	require.NotEqual(t, inherited, d.entry("Cable temperature").PlaceHolder)
}

func TestBareFiguresAreReadInTheUnitThatIsShown(t *testing.T) {
	p := demo.Weekender()
	d := deskOf(t, p, linkNamed(p, "L02"))
	d.units = imperial
	d.set()
	d.types("Rise at near end", "10")
	d.press(fyne.KeyReturn)
	require.InDelta(t, 3.048, d.link("L02").RiseFrom, 1e-6, "a foot is 0.3048 m by definition (1959)")
	require.Equal(t, "10 ft", d.entry("Rise at near end").Text)
	d.types("Rise at near end", "2 m")
	d.press(fyne.KeyReturn)
	require.InDelta(t, 2, d.link("L02").RiseFrom, 1e-9)
	d.types("Cable temperature", "104")
	d.press(fyne.KeyReturn)
	require.InDelta(t, 40, d.link("L02").Temperature.Or(0), 1e-9)
}

func TestSeveralLinksAreChangedAsOneStep(t *testing.T) {
	p := demo.Weekender()
	var names []string
	var refs []plan.Ref
	for link := range p.Links.All() {
		refs, names = append(refs, plan.RefOf(link)), append(names, link.Name)
	}
	require.Greater(t, len(refs), 10)
	d := deskOf(t, p, refs...)
	require.NotContains(t, d.fields(), "Transport", "what is each one's own is not offered for all")
	d.types("Rise at near end", "1.5")
	d.press(fyne.KeyReturn)
	require.Len(t, d.steps, 1)
	for _, name := range names {
		require.InDelta(t, 1.5, d.link(name).RiseFrom, 1e-9, name)
	}
	require.Equal(t, "1.5 m", d.entry("Rise at near end").Text)
	d.types("Rise at near end", "-1")
	d.press(fyne.KeyReturn)
	require.Len(t, d.steps, 1, "none of them is changed by halves")
	d.press(fyne.KeyEscape)
	next, err := plan.Do(d.plan, nil, func(e *plan.Edit) error {
		return plan.Update(e, refs[0].Key, func(link *plan.Link) { link.RiseFrom = 8 })
	})
	require.NoError(t, err)
	d.plan = next
	d.set()
	require.Empty(t, d.entry("Rise at near end").Text)
	require.Equal(t, "several values", d.entry("Rise at near end").PlaceHolder)
	require.True(t, d.view.Keep())
	require.Len(t, d.steps, 1, "a look at several values makes none of them blank")
}

func TestAListOffersEachWordOnceAndKeepsWhatIsChosen(t *testing.T) {
	p := demo.Weekender()
	double := plan.Kind{}
	next, err := plan.Do(p, plan.NewIDSource(9, 9), func(e *plan.Edit) error {
		kind, _ := e.Now().Kinds.Get(plan.Key(e.Now().Devices.At(0).Kind))
		double = kind
		double.ID = "own-double"
		plan.Put(e, double)
		for port := range e.Now().KindPorts.All() {
			if port.Kind == kind.ID {
				port.Kind = double.ID
				plan.Put(e, port)
			}
		}
		return nil
	})
	require.NoError(t, err)
	d := deskOf(t, next, plan.RefOf(next.Devices.At(0)))
	list := d.list("Kind")
	told := map[string]int{}
	for _, option := range list.Options {
		told[option]++
		require.Equal(t, 1, told[option], option)
	}
	require.Equal(t, 1, told[double.Name+" (2)"], "two kinds of one name are told apart")
	was := list.Selected
	d.canvas.Focus(list)
	list.SetSelected(map[bool]string{true: double.Name, false: double.Name + " (2)"}[was != double.Name])
	require.Len(t, d.steps, 1)
	require.NotEqual(t, p.Devices.At(0).Kind, d.plan.Devices.At(0).Kind)
	require.NotEqual(t, was, d.list("Kind").Selected)
	require.True(t, strings.HasPrefix(d.list("Kind").Selected, double.Name))
}

func TestAChoiceThatIsRefusedSaysWhyUnderItsList(t *testing.T) {
	p := demo.Weekender()
	d := deskOf(t, p)
	for device := range p.Devices.All() {
		for link := range p.Links.All() {
			if link.From == device.ID && len(d.selected) == 0 {
				d.selects(plan.RefOf(device))
			}
		}
	}
	was := d.plan
	refused := 0
	for _, option := range d.list("Kind").Options {
		d.list("Kind").SetSelected(option)
		if fault := d.fault("Kind"); fault != "" {
			require.Contains(t, fault, "which the new kind has not")
			require.Equal(t, option, d.list("Kind").Selected, "what was chosen stays to be seen")
			require.Same(t, was, d.plan)
			refused++
		}
		was = d.plan
	}
	require.Positive(t, refused)
}

func TestChoicesGoByKeys(t *testing.T) {
	d := l02(t)
	list := d.list("Wanted kind")
	require.Greater(t, len(list.Options), 2)
	require.True(t, d.view.Focus("fill"))
	at := list.SelectedIndex()
	d.press(fyne.KeyRight)
	require.Equal(t, (at+1)%len(list.Options), d.list("Wanted kind").SelectedIndex())
	require.Len(t, d.steps, 1)
	d.press(fyne.KeyLeft)
	require.Equal(t, at, d.list("Wanted kind").SelectedIndex())
	require.Equal(t, "Wanted kind", d.focused())
	d.press(fyne.KeyDown)
	require.NotNil(t, d.canvas.Overlays().Top(), "the list is open")
	d.press(fyne.KeyEscape)
	require.Nil(t, d.canvas.Overlays().Top())
	require.Zero(t, d.left, "the first Escape closes the list alone")
	d.press(fyne.KeySpace, fyne.KeyDown, fyne.KeyReturn)
	require.Nil(t, d.canvas.Overlays().Top())
	require.Equal(t, 0, d.list("Wanted kind").SelectedIndex())
	require.Equal(t, "Wanted kind", d.focused())
	d.press(fyne.KeyEscape)
	require.Equal(t, 1, d.left)
	test.FocusNext(d.canvas)
	require.NotEqual(t, "Wanted kind", d.focused())
}

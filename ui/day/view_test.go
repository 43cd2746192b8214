package day_test

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/day"
)

func TestTheCrewsWayThroughTheLinksByKey(t *testing.T) {
	f := onField(t, demo.Weekender(), words.Units{})
	require.Equal(t, "L01", f.shown().Name)
	f.typed("l")
	require.Equal(t, "L01 is laid.", f.Said())
	f.typed("J")
	f.typed("t")
	require.True(t, f.shown().Is(plan.Tested))
	require.Equal(t, 3, f.steps())
	require.True(t, f.sees("1 of 38 laid, 1 joined, 1 tested"))
	f.typed("l")
	require.Contains(t, f.Said(), "L01 is laid already, and tested. T takes the last step back.")
	f.typed("t")
	require.Equal(t, plan.Joined, f.shown().Done, "said again of the last step it is taken back")
	f.typed("u")
	require.Equal(t, "Taken back: Mark L01 not tested.", f.Said())
	require.True(t, f.shown().Is(plan.Tested))

	f.typed("n")
	require.Equal(t, "L02", f.shown().Name)
	require.Empty(t, f.Said())
	f.typed(" ")
	f.press(fyne.KeyRight)
	require.Equal(t, "L17", f.shown().Name, "the next of the first phase")
	f.press(fyne.KeyLeft)
	f.typed("p")
	require.Equal(t, "L02", f.shown().Name)
	f.press(fyne.KeyLeft)
	f.press(fyne.KeyLeft)
	require.True(t, f.sees("link 38 of 38"), "round and round")
	f.press(fyne.KeyF8)
	require.Equal(t, []fyne.KeyName{fyne.KeyF8}, f.keys)
	f.press(fyne.KeyEscape)
	require.Equal(t, 1, f.left)
}

func TestOnlyWhatIsLeft(t *testing.T) {
	p := demo.Weekender()
	p = edited(t, p, func(e *plan.Edit) error {
		for link := range p.Links.All() {
			if link.Name != "L03" && link.Name != "L20" {
				require.NoError(t, e.MarkDone(link.ID, plan.Tested, true))
			}
		}
		return nil
	})
	f := onField(t, p, words.Units{})
	require.Equal(t, "L03", f.shown().Name, "it begins where something is left to do")
	f.typed("n")
	require.Equal(t, "L17", f.shown().Name)
	f.typed("a")
	require.Equal(t, "L20", f.shown().Name)
	require.True(t, f.sees(", only what is left to do"))
	f.typed("n")
	require.Equal(t, "L03", f.shown().Name)
	f.typed("t")
	require.Equal(t, "L03", f.shown().Name, "it stays in sight when it is done")
	f.typed("n")
	require.Equal(t, "L20", f.shown().Name)
	f.typed("t")
	require.Contains(t, f.Said(), "L20 has no cable in the plan yet")
	require.Equal(t, 1, f.steps())
	f.typed("a")
	require.False(t, f.sees("only what is left"))
}

func TestASwapIsOneStep(t *testing.T) {
	f := onField(t, demo.Weekender(), words.Units{})
	for len(cabling.Replacements(f.desk.Plan(), f.Link(), 1, false)) < 2 {
		f.typed("n")
	}
	f.typed("t")
	before := f.desk.Plan()
	was := before.SegmentsOf(f.Link())[0]
	f.typed("s")
	require.True(t, f.sees("The best first"), f.Said())
	f.press(fyne.KeyDown)
	f.press(fyne.KeyUp)
	f.typed("l")
	require.True(t, f.shown().Is(plan.Tested), "letters do nothing in a list")
	f.press(fyne.KeyEscape)
	require.Zero(t, f.left, "Escape leaves the list first")
	f.typed("s")
	f.press(fyne.KeyReturn)
	require.Equal(t, 2, f.steps())
	require.NotEqual(t, was.Reel, f.desk.Plan().SegmentsOf(f.Link())[0].Reel)
	require.Empty(t, f.shown().Done, "the new cable does not lie yet")
	require.Contains(t, f.Said(), "It is to be laid, joined and tested again.")
	f.typed("u")
	require.True(t, plan.Equal(before, f.desk.Plan()))
	require.True(t, f.shown().Is(plan.Tested))
}

func TestACableIsChosenAndMarkedFaulty(t *testing.T) {
	f := onField(t, demo.Weekender(), words.Units{})
	f.typed("t")
	f.typed("2")
	require.Equal(t, 2, f.Chosen())
	f.press(fyne.KeyDown)
	require.Equal(t, 1, f.Chosen(), "round and round")
	f.press(fyne.KeyUp)
	f.typed("f")
	reel, _ := f.desk.Plan().Reels.Get(plan.Key(f.desk.Plan().SegmentsOf(f.Link())[1].Reel))
	require.Equal(t, plan.Faulty, reel.Condition)
	require.Equal(t, "L01", reel.FoundAt)
	require.Equal(t, "2031-06-18", reel.FoundOn)
	require.Equal(t, plan.Joined, f.shown().Done, "what was tested on a faulty cable is to be tested again")
	require.Contains(t, f.Said(), "L01 is to be tested again")
	require.True(t, f.sees("FAULTY"))
	f.typed("f")
	require.Contains(t, f.Said(), "marked faulty already")
	f.typed("9")
	require.Equal(t, "This link has no cable 9.", f.Said())
	require.Equal(t, 2, f.steps())
}

func TestWhatCannotBeMarkedOrSwappedIsSaid(t *testing.T) {
	p := hard(t)
	f := onField(t, p, words.Units{})
	f.Begin(linkNamed(t, p, strings.Repeat("GAFFER-", 20)))
	f.typed("2")
	f.typed("f")
	require.Contains(t, f.Said(), "is no reel of the stock")
	f.typed("1")
	f.typed("f")
	require.Contains(t, f.Said(), "is marked faulty")
	own, _ := f.desk.Plan().Reels.Get(plan.Key(f.desk.Plan().SegmentsOf(f.Link())[0].Reel))
	require.Equal(t, 1, own.Count(), "one of three equal ones becomes a row of its own")
	require.Equal(t, plan.Joined, f.shown().Done)
	uncabled := edited(t, demo.Weekender(), func(*plan.Edit) error { return nil })
	f = onField(t, uncabled, words.Units{})
	f.Begin(linkNamed(t, uncabled, "L20"))
	for _, key := range []string{"s", "f", "l"} {
		f.typed(key)
		require.Contains(t, f.Said(), "no cable in the plan yet", key)
	}
	require.Zero(t, f.steps())
}

func TestFindingALink(t *testing.T) {
	f := onField(t, demo.Weekender(), words.Units{})
	f.typed("/")
	f.typed("l20x")
	require.True(t, f.sees("No link, no device"))
	f.press(fyne.KeyReturn)
	f.press(fyne.KeyBackspace)
	require.True(t, f.sees("1 of 38 links"))
	f.press(fyne.KeyReturn)
	require.Equal(t, "L20", f.shown().Name)
	require.True(t, f.Command(&desktop.CustomShortcut{KeyName: fyne.KeyF, Modifier: fyne.KeyModifierShortcutDefault}))
	f.press(fyne.KeyDown, fyne.KeyDown)
	f.press(fyne.KeyEnter)
	require.Equal(t, "L03", f.shown().Name, "the third of all")
	f.typed("/")
	for _, notch := range []float32{25, -25, -25, 25} {
		f.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: notch}})
	}
	f.press(fyne.KeyReturn)
	require.Equal(t, "L02", f.shown().Name, "the wheel goes along the list, not beyond its ends")
	f.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: -25}})
	require.Equal(t, 1, f.Chosen(), "and leaves a page alone")
	require.True(t, f.Command(&fyne.ShortcutUndo{}))
	require.Equal(t, "There is nothing to take back.", f.Said())
	require.False(t, f.Command(&fyne.ShortcutRedo{}))
}

func TestAllOfItByTapping(t *testing.T) {
	f := onField(t, demo.Weekender(), words.Units{})
	f.tap("not laid")
	require.True(t, f.shown().Is(plan.Laid))
	f.tap("LM01")
	require.Equal(t, 2, f.Chosen())
	f.tap("Cable 2 faulty")
	require.Contains(t, f.Said(), "is marked faulty")
	f.tap("Undo")
	f.tap("Next")
	require.Equal(t, "L02", f.shown().Name)
	f.tap("Before")
	f.tap("Find")
	f.tap("L03")
	require.Equal(t, "L01", f.shown().Name, "a tap chooses")
	f.tap("L03")
	require.Equal(t, "L03", f.shown().Name, "a second one goes there")
	f.tap("To do")
	f.tap("Show all")
	f.tap("Plan")
	require.Equal(t, 1, f.left)
	require.Equal(t, f.View, f.window.Canvas().Focused(), "the keys stay with the view")
}

func TestAPlanWithoutLinksSaysWhatToDoFirst(t *testing.T) {
	f := onField(t, plan.New("x"), words.Units{})
	require.True(t, f.sees("This plan has no link yet."))
	f.typed("ljtsfupn/a1")
	f.press(fyne.KeyUp, fyne.KeyRight, fyne.KeyReturn, fyne.KeyBackspace)
	require.Zero(t, f.steps())
	f.desk.NewPlan(demo.Weekender())
	require.Equal(t, "L01", f.shown().Name, "it follows the plan")
	f.desk.NewPlan(plan.New("y"))
	require.Empty(t, f.Link())
	f.press(fyne.KeyEscape)
	require.Equal(t, 1, f.left)
}

func TestTheDayViewAsMarkup(t *testing.T) {
	for name, keys := range map[string]string{"page": "j", "swap": "js", "find": "/l0", "empty": ""} {
		t.Run(name, func(t *testing.T) {
			p := demo.Weekender()
			if name == "empty" {
				p = plan.New("x")
			}
			f := onField(t, p, words.Units{})
			if name != "empty" {
				f.Begin(linkNamed(t, p, "L07"))
			}
			f.typed(keys)
			test.AssertRendersToMarkup(t, name+".xml", f.window.Canvas())
		})
	}
}

func TestACableTakenFromAnotherLinkIsToldOfBoth(t *testing.T) {
	p := demo.Weekender()
	p = edited(t, p, func(e *plan.Edit) error {
		for link := range p.Links.All() {
			link.Priority = 5
			if link.Name == "L35" {
				link.Priority = 1
			}
			plan.Put(e, link)
		}
		require.NoError(t, e.MarkDone(linkNamed(t, p, "L35"), plan.Tested, true))
		for reel := range p.Reels.All() {
			if p.UsedReels()[reel.ID] == 0 {
				require.NoError(t, e.RemoveReel(reel.ID))
			}
		}
		return nil
	})
	f := onField(t, p, words.Units{})
	f.Begin(linkNamed(t, p, "L07"))
	f.typed("s")
	require.True(t, f.sees("lies in L35"), f.texts())
	require.True(t, f.sees("but L35 is left without cable"))
	f.press(fyne.KeyReturn)
	require.Contains(t, f.Said(), "L35 is left without it.")
	robbed, _ := f.desk.Plan().Link(linkNamed(t, p, "L35"))
	require.Empty(t, robbed.Done)
}

func TestNothingLiesOnSomethingElse(t *testing.T) {
	if testing.Short() {
		t.Skip("drawn by one goroutine alone")
	}
	some := []string{"L01", "L03", "L25", strings.Repeat("GAFFER-", 20)}
	for name, test := range map[string]struct {
		width, height float32
		units         words.Units
		all           bool
	}{
		"usual": {1280, 772, words.Units{}, true}, "usual in feet": {1280, 772, imperial, false}, "half": {640, 386, words.Units{}, false},
		"small": {1024, 580, words.Units{}, false}, "large": {1920, 1050, imperial, false}, "upright": {800, 1200, words.Units{}, false},
		"flat": {1600, 500, imperial, false}, "tiny": {240, 160, words.Units{}, false},
	} {
		t.Run(name, func(t *testing.T) {
			f := onField(t, hard(t), test.units)
			size := fyne.NewSize(test.width, test.height)
			f.window.Resize(size)
			for _, id := range day.Round(f.desk.Assessment()) {
				link, _ := f.desk.Plan().Link(id)
				if !test.all && !slices.Contains(some, link.Name) {
					continue
				}
				f.Begin(id)
				for _, keys := range []string{"", "t", "s", "f", "/", "a", "a"} {
					f.typed(keys)
					require.Empty(t, f.crowding(size), "%s after %q", link.Name, keys)
					if f.sees("Back") {
						f.press(fyne.KeyDown)
						require.Empty(t, f.crowding(size), "%s, second after %q", link.Name, keys)
						f.press(fyne.KeyEscape)
					}
				}
			}
		})
	}
}

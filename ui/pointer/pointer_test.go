package pointer_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"stageloom/ui/pointer"
)

// clock runs what waits when the test says so.
type clock struct{ waiting []*wait }

type wait struct {
	long    time.Duration
	do      func()
	stopped bool
}

func (c *clock) after(long time.Duration, do func()) func() {
	w := &wait{long: long, do: do}
	c.waiting = append(c.waiting, w)
	return func() { w.stopped = true }
}

// ring runs what still waits; late runs what was stopped too, as a timer that fired a moment before.
func (c *clock) ring(late bool) {
	all := c.waiting
	c.waiting = nil
	for _, w := range all {
		if late || !w.stopped {
			w.do()
		}
	}
}

func saying(words string) func() string { return func() string { return words } }

func newTips(t *testing.T) (*clock, *pointer.Tips, fyne.Window) {
	t.Helper()
	test.NewTempApp(t)
	c := &clock{}
	tips := pointer.NewTips(c.after)
	w := test.NewTempWindow(t, container.NewStack(tips.Layer))
	w.SetPadded(false)
	w.Resize(fyne.NewSize(500, 300))
	return c, tips, w
}

func TestATipComesWhenThePointerRests(t *testing.T) {
	at := fyne.NewPos(40, 40)
	for name, each := range map[string]struct {
		do   func(*pointer.Tips)
		late bool
		want string
	}{
		"it is told after the wait":           {do: func(*pointer.Tips) {}, want: "one"},
		"moving on the same thing waits on":   {do: func(t *pointer.Tips) { t.Over(1, fyne.NewPos(44, 40), saying("other")) }, want: "one"},
		"another thing is told instead":       {do: func(t *pointer.Tips) { t.Over(2, at, saying("two")) }, want: "two"},
		"leaving cancels":                     {do: func(t *pointer.Tips) { t.Out() }},
		"leaving cancels a wait that is over": {do: func(t *pointer.Tips) { t.Out() }, late: true},
		"a press cancels":                     {do: func(t *pointer.Tips) { t.Dismiss() }},
		"after a press the same thing is silent": {do: func(t *pointer.Tips) {
			t.Dismiss()
			t.Over(1, at, saying("one"))
		}},
		"gone out and back in it is told again": {do: func(t *pointer.Tips) {
			t.Dismiss()
			t.Out()
			t.Over(1, at, saying("again"))
		}, want: "again"},
		"no words show nothing": {do: func(t *pointer.Tips) { t.Over(3, at, saying("")) }},
	} {
		t.Run(name, func(t *testing.T) {
			c, tips, _ := newTips(t)
			tips.Over(1, at, saying("one"))
			require.Equal(t, pointer.Rest, c.waiting[0].long)
			require.Empty(t, tips.Words(), "not at once")
			each.do(tips)
			c.ring(each.late)
			require.Equal(t, each.want, tips.Words())
			require.Equal(t, each.want != "", len(tips.Layer.Objects) > 0)
			tips.Out()
			require.Empty(t, tips.Words())
			require.Empty(t, tips.Layer.Objects)
		})
	}
}

func TestTheLayerHoldsNothingThatTakesThePointer(t *testing.T) {
	c, tips, _ := newTips(t)
	tips.Over(1, fyne.NewPos(480, 280), saying("FOH console\nport C"))
	c.ring(false)
	require.Len(t, tips.Layer.Objects, 3, "a box and two lines")
	for _, object := range tips.Layer.Objects {
		_, hover := object.(desktop.Hoverable)
		_, mouse := object.(desktop.Mouseable)
		_, tap := object.(fyne.Tappable)
		require.False(t, hover || mouse || tap)
		end := object.Position().Add(object.Size())
		require.LessOrEqual(t, end.X, float32(500), "within the window")
		require.LessOrEqual(t, end.Y, float32(300))
	}
}

func TestNoTipsTellNothing(t *testing.T) {
	var tips *pointer.Tips
	tips.Over(1, fyne.Position{}, saying("x"))
	tips.Dismiss()
	tips.Out()
	require.Empty(t, tips.Words())
	silent := pointer.NewTips(nil)
	silent.Over(1, fyne.Position{}, saying("x"))
	require.Empty(t, silent.Words())
}

func TestAnIconSaysWhatItDoes(t *testing.T) {
	c, tips, w := newTips(t)
	tapped := 0
	button := pointer.NewIconButton(theme.CancelIcon(), "Close the message", tips, func() { tapped++ })
	w.SetContent(container.NewStack(container.NewCenter(button), tips.Layer))
	button.MouseIn(&desktop.MouseEvent{})
	button.MouseMoved(&desktop.MouseEvent{})
	c.ring(false)
	require.Equal(t, "Close the message", tips.Words())
	test.Tap(button)
	require.Equal(t, 1, tapped)
	require.Empty(t, tips.Words())
	button.MouseOut()
}

func TestWordsStandBesideThePointer(t *testing.T) {
	room, size := fyne.NewSize(400, 300), fyne.NewSize(100, 40)
	for name, each := range map[string]struct{ at, want fyne.Position }{
		"below and to the right":                {fyne.NewPos(50, 50), fyne.NewPos(62, 70)},
		"at the right edge they move in":        {fyne.NewPos(390, 50), fyne.NewPos(300, 70)},
		"at the foot they stand above":          {fyne.NewPos(50, 290), fyne.NewPos(62, 242)},
		"in a corner both":                      {fyne.NewPos(390, 290), fyne.NewPos(300, 242)},
		"larger than the room they begin in it": {fyne.NewPos(-500, -500), fyne.NewPos(0, 0)},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, each.want, pointer.Beside(each.at, size, room)) })
	}
}

func TestLinesBreakAtBlanks(t *testing.T) {
	letters := func(text string) float32 { return float32(len(text)) }
	require.Equal(t, []string{"one two", "three", "abcdefghijk", "x"}, pointer.Lines("one two three\nabcdefghijk x", 8, letters))
	require.Equal(t, []string{""}, pointer.Lines("", 8, letters))
}

func TestTwoPressesAreADoubleClick(t *testing.T) {
	start := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	here := fyne.NewPos(100, 100)
	for name, each := range map[string]struct {
		wait time.Duration
		at   fyne.Position
		want bool
	}{
		"soon and near":    {300 * time.Millisecond, fyne.NewPos(103, 102), true},
		"soon but far":     {300 * time.Millisecond, fyne.NewPos(108, 100), false},
		"near but late":    {500 * time.Millisecond, here, false},
		"just in time":     {400 * time.Millisecond, here, true},
		"at the same spot": {0, here, true},
	} {
		t.Run(name, func(t *testing.T) {
			var twice pointer.Twice
			require.False(t, twice.Press(here, start))
			require.Equal(t, each.want, twice.Press(each.at, start.Add(each.wait)))
		})
	}
	t.Run("a third press is a first again", func(t *testing.T) {
		var twice pointer.Twice
		twice.Press(here, start)
		require.True(t, twice.Press(here, start))
		require.False(t, twice.Press(here, start))
		require.True(t, twice.Press(here, start))
	})
	t.Run("what was forgotten is no first", func(t *testing.T) {
		var twice pointer.Twice
		twice.Press(here, start)
		twice.Forget()
		require.False(t, twice.Press(here, start))
	})
}

func TestASignNamesWhatIsCarried(t *testing.T) {
	test.NewTempApp(t)
	sign := pointer.NewSign()
	require.Empty(t, sign.Words())
	sign.Show("Stage box", fyne.NewPos(300, 200))
	require.Equal(t, "Stage box", sign.Words())
	box := sign.Layer.Objects[0]
	middle := func() fyne.Position { return box.Position().AddXY(box.Size().Width/2, box.Size().Height/2) }
	require.Equal(t, fyne.NewPos(300, 200), middle(), "at the pointer")
	sign.ShowAbove("X70-03", fyne.NewPos(300, 200))
	require.Equal(t, fyne.NewPos(300, 170), middle(), "what it is aimed at stays in sight")
	sign.Hide()
	require.Empty(t, sign.Words())
}

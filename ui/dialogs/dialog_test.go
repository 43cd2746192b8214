package dialogs_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
)

// framed is a dialog with three buttons, the highlighted one given first, and what was pressed last.
func framed(t *testing.T, width float32, content fyne.CanvasObject) (h *hosttest.Host, d *dialogs.Dialog, pressed *string) {
	t.Helper()
	h, pressed = hosttest.New(t, plan.New("Show")), new(string)
	d = dialogs.New(h, "A title", content)
	does := dialogs.NewAnswer(h, "Do it", func() { *pressed = "Do it" })
	does.Importance = widget.HighImportance
	told := widget.NewLabel("told")
	d.SetButtons([]fyne.CanvasObject{told, does, dialogs.NewAnswer(h, "Another", func() { *pressed = "Another" }), dialogs.NewAnswer(h, "Cancel", d.Hide)})
	d.Fit(width, 0)
	d.Show()
	return h, d, pressed
}

func where(object fyne.CanvasObject) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(object)
}

func answersOf(h *hosttest.Host) (all []*dialogs.Answer) {
	for _, part := range h.Parts() {
		if answer, is := part.(*dialogs.Answer); is {
			all = append(all, answer)
		}
	}
	return all
}

func TestFrameMeasures(t *testing.T) {
	content := widget.NewLabel("words")
	h, _, _ := framed(t, dialogs.QuestionWidth, content)
	frame := h.Window().Canvas().Overlays().Top().(*widget.PopUp).Content
	rim := theme.InnerPadding() / 2 // the ground is drawn larger
	assert.Equal(t, float32(dialogs.QuestionWidth), frame.Size().Width+2*rim)
	left, right := where(frame).X-rim+20, where(frame).X+frame.Size().Width+rim-20
	assert.Equal(t, left, where(content).X, "the content lies 20 from the edge")
	var title *widget.Label
	for _, part := range h.Parts() {
		if label, is := part.(*widget.Label); is && label.Text == "A title" {
			title = label
		}
	}
	require.NotNil(t, title)
	assert.Equal(t, theme.SizeNameSubHeadingText, title.SizeName)
	assert.Equal(t, left, where(title).X+theme.InnerPadding(), "the letters stand on the content's edge")
	assert.Equal(t, float32(12), where(content).Y-where(title).Y-title.Size().Height+theme.InnerPadding())
	buttons := answersOf(h)
	require.Len(t, buttons, 3)
	assert.Equal(t, []string{"Another", "Cancel", "Do it"}, []string{buttons[0].Text, buttons[1].Text, buttons[2].Text}, "the highlighted one is last")
	assert.Equal(t, right, where(buttons[2]).X+buttons[2].Size().Width)
	assert.Equal(t, float32(8), where(buttons[2]).X-where(buttons[1]).X-buttons[1].Size().Width)
	words := fyne.MeasureText("Cancel", theme.TextSize(), fyne.TextStyle{Bold: true}).Width
	assert.InDelta(t, words+32, buttons[1].Size().Width, 0.01, "words are 16 from the sides")
	assert.GreaterOrEqual(t, buttons[1].Size().Height, float32(24))
}

func TestFrameIsAsHighAsWhatItHolds(t *testing.T) {
	heights := map[string]float32{}
	for _, words := range []string{"one", "many words that wrap in a question, which is narrow, so that it is higher by some lines than one word is, as many as it takes to tell"} {
		content := widget.NewLabel(words)
		content.Wrapping = fyne.TextWrapWord
		h, _, _ := framed(t, dialogs.QuestionWidth, content)
		heights[words] = answersOf(h)[0].Size().Height
		assert.GreaterOrEqual(t, content.Size().Height, content.MinSize().Height, "nothing is cut")
		assert.InDelta(t, 16, where(answersOf(h)[0]).Y-where(content).Y-content.MinSize().Height, 1, "nothing is empty")
	}
	h, _, _ := framed(t, dialogs.WideWidth, widget.NewLabel("a\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\nb"))
	last := answersOf(h)[2]
	assert.Less(t, where(last).Y+last.Size().Height, h.Window().Canvas().Size().Height, "what is too high scrolls above its buttons")
}

func TestKeysOfAFrame(t *testing.T) {
	h, _, pressed := framed(t, dialogs.FormWidth, widget.NewLabel("words"))
	canvas := h.Window().Canvas()
	focused, is := canvas.Focused().(*dialogs.Answer)
	require.True(t, is)
	assert.Equal(t, "Do it", focused.Text, "what is highlighted has the keys")
	for _, key := range []fyne.KeyName{fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace} {
		*pressed = ""
		canvas.Focused().TypedKey(&fyne.KeyEvent{Name: key})
		assert.Equal(t, "Do it", *pressed, key)
	}
	canvas.Focus(answersOf(h)[0])
	canvas.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, "Another", *pressed, "what has the keys is pressed, not what is highlighted")
	canvas.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.Zero(t, h.Open(), "Escape closes")
}

func TestEnterDoesWhatIsHighlightedFromEveryPart(t *testing.T) {
	host := hosttest.New(t, plan.New("Show"))
	check := dialogs.NewCheck(host, "a box", false, nil)
	parts := map[string]fyne.Focusable{
		"list": dialogs.NewChooser(host, []string{"a", "b"}, nil), "field": dialogs.NewEntry(host), "box": check,
		"lines":        dialogs.NewManyList(host, "lines"),
		"one of lines": dialogs.NewPickList(host, func() int { return 0 }, nil, nil),
	}
	for name, part := range parts {
		done := 0
		d := dialogs.New(host, "A title", part.(fyne.CanvasObject))
		does := dialogs.NewAnswer(host, "Do it", func() { done++ })
		does.Importance = widget.HighImportance
		d.SetButtons([]fyne.CanvasObject{does})
		d.Show()
		dialogs.Focus(host, part)
		part.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		assert.Equal(t, 1, done, name)
		does.Disable()
		part.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		assert.Equal(t, 1, done, "%s: what cannot be pressed is not", name)
		part.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		assert.Zero(t, host.Open(), name)
	}
}

func TestFocusOfAButtonIsSeen(t *testing.T) {
	for _, importance := range []widget.Importance{widget.MediumImportance, widget.HighImportance, widget.DangerImportance} {
		host := hosttest.New(t, plan.New("Show"))
		answer := dialogs.NewAnswer(host, "Do it", func() {})
		answer.Importance = importance
		window := test.NewTempWindow(t, answer)
		window.Resize(fyne.NewSize(120, 60))
		before := window.Canvas().Capture()
		window.Canvas().Focus(answer)
		x, y := int(where(answer).X)-2, int(where(answer).Y)+int(answer.Size().Height/2)
		assert.NotEqual(t, before.At(x, y), window.Canvas().Capture().At(x, y), "a ring beside the button, importance %d", importance)
		window.Canvas().Focus(nil)
		assert.Equal(t, before.At(x, y), window.Canvas().Capture().At(x, y))
	}
}

func TestTabLeavesAFieldOfSeveralLines(t *testing.T) {
	host := hosttest.New(t, plan.New("Show"))
	require.False(t, fyne.Tabbable(dialogs.NewLongEntry(host)).AcceptsTab())
}

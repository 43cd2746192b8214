package table

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/ahead"
)

const (
	// choicesHigh is how high a list of words is at most; beyond, it scrolls.
	choicesHigh = 300
	// leastChoices is how wide it is at least.
	leastChoices = 120
)

// choices is the list of words that a cell may take: arrows and letters go to one, Enter takes it, Escape takes none.
type choices struct {
	widget.List
	words []string
	ahead ahead.Ahead
	at    int
	// going is that keys go to a word, which does not take it yet.
	going bool
	take  func(int)
	leave func()
}

// What it is to the toolkit, pinned.
var _ fyne.Focusable = (*choices)(nil)

// newChoices lists words, of which one is the cell's now.
func newChoices(words []string, take func(int), leave func()) *choices {
	c := &choices{words: words, at: -1, take: take, leave: leave}
	c.Length = func() int { return len(words) }
	c.CreateItem = func() fyne.CanvasObject { return widget.NewLabel("") }
	c.UpdateItem = func(i widget.ListItemID, item fyne.CanvasObject) { item.(*widget.Label).SetText(words[i]) }
	c.HideSeparators = true
	c.OnSelected = func(i widget.ListItemID) {
		if !c.going {
			c.take(i) // a press takes it
		}
	}
	c.ExtendBaseWidget(c)
	return c
}

// goTo puts the mark on a word and brings it into view.
func (c *choices) goTo(at int) {
	c.at = max(0, min(at, len(c.words)-1))
	c.going = true
	c.Select(c.at)
	c.going = false
}

// TypedKey implements fyne.Focusable.
func (c *choices) TypedKey(event *fyne.KeyEvent) {
	if event.Name == fyne.KeySpace && c.ahead.Typing() {
		return // it is typed
	}
	steps := map[fyne.KeyName]int{fyne.KeyDown: c.at + 1, fyne.KeyUp: c.at - 1, fyne.KeyHome: 0, fyne.KeyEnd: len(c.words) - 1}
	if to, steps := steps[event.Name]; steps {
		c.ahead.End()
		c.goTo(to)
		return
	}
	switch event.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		c.take(c.at)
	case fyne.KeyEscape:
		c.leave()
	}
}

// TypedRune implements fyne.Focusable: letters find a word.
func (c *choices) TypedRune(letter rune) {
	if letter == ' ' && !c.ahead.Typing() {
		return
	}
	if at := c.ahead.Type(letter, c.words, c.at); at >= 0 {
		c.goTo(at)
	}
}

// offer lists the words that a cell may take, at the cursor.
func (g *Grid) offer(options []string) {
	canvas := g.canvas()
	if canvas == nil {
		return
	}
	target := g.sheet.Target()
	row, column := g.sheet.Cursor()
	labels, now := make([]string, len(options)), 0
	width := float32(leastChoices)
	for i, option := range options {
		if labels[i] = option; option == "" {
			labels[i] = "–"
		}
		if option == g.sheet.Cell(row, column).Text {
			now = i
		}
		width = max(width, widget.NewLabel(labels[i]).MinSize().Width)
	}
	var popUp *widget.PopUp
	shut := func() {
		popUp.Hide()
		g.Focus()
	}
	list := newChoices(labels, func(i int) {
		shut()
		if err := g.sheet.Set(target, options[i]); err != nil {
			g.warn(unchanged(err))
			return
		}
		g.moved()
	}, shut)
	popUp = widget.NewPopUp(list, canvas)
	line := widget.NewLabel("").MinSize().Height + theme.Padding()
	popUp.Resize(fyne.NewSize(width+theme.Size(theme.SizeNameScrollBar)+2*theme.InnerPadding(), min(choicesHigh, line*float32(len(options))+theme.InnerPadding())))
	popUp.ShowAtPosition(g.atCursor())
	canvas.Focus(list)
	list.goTo(now)
}

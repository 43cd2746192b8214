package dialogs

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Widths of dialogs in units of the window: of a question, of a form, of what shows a list or a picture beside its choices, and
// of two lists side by side.
const (
	QuestionWidth = 440
	FormWidth     = 600
	WideWidth     = 1180
	TwoListsWidth = 1400
)

// besideWindow is what a dialog leaves free of the window in each direction.
const besideWindow = 30

// Dialog is the one frame of all dialogs: a title, a content and a row of buttons, as wide as its kind and as high as what it
// holds, never larger than the window. What [Answer] is highlighted has the keys until the dialog gives them to a field.
type Dialog struct {
	host    Host
	popUp   *widget.PopUp
	frame   *fyne.Container
	buttons []fyne.CanvasObject
	first   *Answer // has the keys where no button is highlighted
	width   float32
	least   float32
	closed  []func()
	shown   bool
}

// New returns a dialog of a form's width that is not shown yet.
func New(host Host, title string, content fyne.CanvasObject) *Dialog {
	d := &Dialog{host: host, width: FormWidth}
	heading := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName, heading.Truncation = theme.SizeNameSubHeadingText, fyne.TextTruncateEllipsis
	d.frame = container.New(frameLayout{}, heading, content, container.New(answersLayout{}))
	d.popUp = widget.NewModalPopUp(d.frame, host.Window().Canvas())
	d.popUp.Hide()
	return d
}

// Fit gives the dialog one of the widths, and at least this height where what it holds would stand lower, such as a list.
func (d *Dialog) Fit(width, least float32) { d.width, d.least = width, least }

// SetButtons puts what is pressed at the right, the highlighted one last, and the rest, such as a text, at the left.
func (d *Dialog) SetButtons(buttons []fyne.CanvasObject) {
	d.buttons = buttons
	d.order()
}

// Closes gives the dialog one button that closes it, which has the keys.
func (d *Dialog) Closes(do func()) {
	d.first = NewAnswer(d.host, "Close", do)
	d.SetButtons([]fyne.CanvasObject{d.first})
}

// SetOnClosed says what is done once the dialog is closed, however it is.
func (d *Dialog) SetOnClosed(closed func()) { d.closed = append(d.closed, closed) }

// Hide closes the dialog.
func (d *Dialog) Hide() {
	if !d.shown {
		return
	}
	d.shown = false
	d.popUp.Hide()
	for _, closed := range d.closed {
		closed()
	}
}

// Show shows the dialog over all that is shown.
func (d *Dialog) Show() {
	d.order()
	d.measure()
	keys := d.host.Keys()
	if !keys.awaits() {
		keys.Escapable(d.Hide)
	}
	keys.submitsFirst(d.submit)
	d.shown = true
	d.popUp.Show()
	if does := d.highlighted(); does != nil && !does.Disabled() {
		Focus(d.host, does)
	}
}

// Refresh draws the dialog anew, as high as what it holds now.
func (d *Dialog) Refresh() {
	d.measure()
	d.popUp.Refresh()
}

// submit does what Enter does where no button has the keys.
func (d *Dialog) submit() {
	if does := d.highlighted(); does != nil && !does.Disabled() {
		does.OnTapped()
	}
}

func isHighlighted(button fyne.CanvasObject) bool {
	answer, is := button.(*Answer)
	return is && (answer.Importance == widget.HighImportance || answer.Importance == widget.DangerImportance)
}

// highlighted is the button that does what the dialog is for; nil for none.
func (d *Dialog) highlighted() *Answer {
	for i := len(d.buttons) - 1; i >= 0; i-- {
		if isHighlighted(d.buttons[i]) {
			return d.buttons[i].(*Answer)
		}
	}
	return d.first
}

// order puts the highlighted button last.
func (d *Dialog) order() {
	ordered := make([]fyne.CanvasObject, 0, len(d.buttons))
	for _, last := range []bool{false, true} {
		for _, button := range d.buttons {
			if isHighlighted(button) == last {
				ordered = append(ordered, button)
			}
		}
	}
	row := d.frame.Objects[2].(*fyne.Container)
	if !slices.Equal(row.Objects, ordered) {
		row.Objects = ordered
		row.Refresh()
	}
}

// measure sizes the dialog: lines that wrap say how high they are once they know their width.
func (d *Dialog) measure() {
	window := d.host.Window().Canvas().Size()
	rim := theme.InnerPadding() // the toolkit draws the dialog's ground that much larger
	width, most := min(d.width, window.Width-besideWindow)-rim, window.Height-besideWindow-rim
	for range 3 {
		d.frame.Layout.Layout(d.frame.Objects, fyne.NewSize(width, max(d.frame.MinSize().Height, min(d.least-rim, most))))
	}
	if _, scrolls := d.frame.Objects[1].(*container.Scroll); !scrolls && d.frame.MinSize().Height > most {
		d.least = most + rim
		d.frame.Objects[1] = container.NewVScroll(d.frame.Objects[1])
	}
	d.popUp.Resize(fyne.NewSize(width+rim, min(most, max(d.least-rim, d.frame.MinSize().Height))+rim))
}

// frameLayout lays out the title, the content and the buttons of a dialog.
type frameLayout struct{}

// Distances within the frame.
const (
	frameMargin = 20
	underTitle  = 12
	overButtons = 16
)

// edge is how far the content lies from the edge of the frame, which the toolkit draws larger on all sides.
func (frameLayout) edge() float32 { return frameMargin - theme.InnerPadding()/2 }

// around is what the frame takes of the height.
func (l frameLayout) around(objects []fyne.CanvasObject) float32 {
	height := 2*l.edge() + objects[0].MinSize().Height - 2*theme.InnerPadding() + underTitle
	if buttons := objects[2].MinSize().Height; buttons > 0 {
		height += overButtons + buttons
	}
	return height
}

// MinSize implements fyne.Layout.
func (l frameLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	content := objects[1].MinSize()
	return fyne.NewSize(max(content.Width, objects[2].MinSize().Width)+2*l.edge(), content.Height+l.around(objects))
}

// Layout implements fyne.Layout.
func (l frameLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	title, content, buttons := objects[0], objects[1], objects[2]
	edge, inset, width := l.edge(), theme.InnerPadding(), size.Width-2*l.edge()
	title.Move(fyne.NewPos(edge-inset, edge-inset)) // its letters stand on the edge of the content
	title.Resize(fyne.NewSize(width+2*inset, title.MinSize().Height))
	content.Move(fyne.NewPos(edge, edge+title.MinSize().Height-2*inset+underTitle))
	content.Resize(fyne.NewSize(width, size.Height-l.around(objects)))
	high := buttons.MinSize().Height
	buttons.Move(fyne.NewPos(edge, size.Height-edge-high))
	buttons.Resize(fyne.NewSize(width, high))
}

// answersLayout lays out the buttons of a dialog from the right, and what is none from the left.
type answersLayout struct{}

// Sizes of the row of buttons: what a button is high at least, how far its words are from its sides and it from the next.
const (
	answerHeight  = 30
	answerInset   = 16
	betweenAnswer = 8
)

// sizeOf is how large a part of the row is, and whether it stands at the right.
func (answersLayout) sizeOf(object fyne.CanvasObject) (size fyne.Size, right bool) {
	size = object.MinSize()
	switch object.(type) {
	case *Answer, *widget.Button:
		return fyne.NewSize(size.Width+2*(answerInset-theme.InnerPadding()), max(answerHeight, size.Height)), true
	}
	return size, false
}

// MinSize implements fyne.Layout.
func (l answersLayout) MinSize(objects []fyne.CanvasObject) (least fyne.Size) {
	for _, object := range objects {
		if !object.Visible() {
			continue
		}
		size, _ := l.sizeOf(object)
		if label, is := object.(*widget.Label); is && label.Truncation != fyne.TextTruncateOff {
			size.Width = 0
		}
		if least.Width > 0 {
			least.Width += betweenAnswer
		}
		least.Width += size.Width
		least.Height = max(least.Height, size.Height)
	}
	return least
}

// Layout implements fyne.Layout.
func (l answersLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	end := size.Width
	for i := len(objects) - 1; i >= 0; i-- {
		own, right := l.sizeOf(objects[i])
		if !right || !objects[i].Visible() {
			continue
		}
		objects[i].Resize(fyne.NewSize(own.Width, size.Height))
		objects[i].Move(fyne.NewPos(end-own.Width, 0))
		end -= own.Width + betweenAnswer
	}
	x := float32(0)
	for _, object := range objects {
		own, right := l.sizeOf(object)
		if right || !object.Visible() {
			continue
		}
		if label, is := object.(*widget.Label); is && label.Truncation != fyne.TextTruncateOff {
			own.Width = max(0, end-x)
		}
		object.Resize(own)
		object.Move(fyne.NewPos(x, (size.Height-own.Height)/2))
		x += own.Width + betweenAnswer
	}
}

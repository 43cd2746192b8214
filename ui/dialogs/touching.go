package dialogs

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// AskTouching lists what an edit does to links on site; Enter and Escape leave them, which is the answer that harms nothing.
func AskTouching(host Host, name string, lines []string, do func()) {
	list := container.NewVBox()
	for _, line := range lines {
		label := widget.NewLabel(line)
		label.Wrapping = fyne.TextWrapWord
		list.Add(label)
	}
	hint := widget.NewLabel(fmt.Sprintf("%s? Undo brings it back on the plan; on site it is work.", name))
	hint.Wrapping, hint.Importance = fyne.TextWrapWord, widget.LowImportance
	focus := host.Window().Canvas().Focused()
	d := New(host, "This touches what lies on site", container.NewBorder(nil, hint, nil, nil, container.NewVScroll(list)))
	shut := func() {
		d.Hide()
		Focus(host, focus)
	}
	keep := NewAnswer(host, "Leave it", shut)
	keep.Importance = widget.HighImportance
	yes := NewAnswer(host, "Do it all the same", func() { shut(); do() })
	d.SetButtons([]fyne.CanvasObject{yes, keep})
	d.Fit(FormWidth, 0)
	host.Keys().Escapable(shut)
	d.Show()
	Focus(host, keep)
}

package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/standards"
	"stageloom/ui/dialogs"
)

// pairs lays out two columns, the first as wide as a third.
type pairs struct{}

// MinSize implements fyne.Layout.
func (*pairs) MinSize(objects []fyne.CanvasObject) fyne.Size {
	height := float32(0)
	for i := 0; i+1 < len(objects); i += 2 {
		height += max(objects[i].MinSize().Height, objects[i+1].MinSize().Height)
	}
	return fyne.NewSize(300, height)
}

// Layout implements fyne.Layout.
func (*pairs) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y, first := float32(0), size.Width*0.36
	for i := 0; i+1 < len(objects); i += 2 {
		objects[i].Resize(fyne.NewSize(first, objects[i].MinSize().Height))
		objects[i+1].Resize(fyne.NewSize(size.Width-first, objects[i+1].MinSize().Height))
		height := max(objects[i].MinSize().Height, objects[i+1].MinSize().Height)
		objects[i].Move(fyne.NewPos(0, y))
		objects[i+1].Move(fyne.NewPos(first, y))
		y += height
	}
}

func (w *window) showCautions() {
	grid := container.New(&pairs{})
	for _, caution := range standards.Cautions() {
		text := widget.NewLabel(caution.Text)
		text.Wrapping = fyne.TextWrapWord
		grid.Add(widget.NewLabelWithStyle(caution.About, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		grid.Add(text)
	}
	w.showText("Cautions", grid)
}

func (w *window) showAbout() {
	label := widget.NewLabel("Stageloom " + w.app.Metadata().Version + "\n\n" +
		"Designs the stage system of a live show: what stands where, which cables join into each link, and how much " +
		"loss each link has in hand.\n\nFigures are computed from catalogue maxima and stated rules; each names its " +
		"source. They do not replace a test of the real link, local codes, the venue's rules or licensed practice.\n\n" +
		"Apache License 2.0. The licences of the libraries lie with their sources; the letters are Noto Sans and " +
		"DejaVu, both under free licences.")
	label.Wrapping = fyne.TextWrapWord
	w.showText("About Stageloom", label)
}

func (w *window) showText(title string, content fyne.CanvasObject) {
	d := dialog.NewCustom(title, "Close", container.NewVScroll(container.NewPadded(content)), w.window)
	size := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(min(760, size.Width*0.9), min(620, size.Height*0.85)))
	w.Keys().Escapable(d.Hide)
	d.Show()
}

// showHistory lists the steps; a click goes there.
func (w *window) showHistory() {
	names, at := w.desk.History()
	note := func(i int) string {
		switch {
		case i == at:
			return "now"
		case i > at:
			return "undone"
		}
		return ""
	}
	list := dialogs.NewPickList(w,
		func() int { return len(names) },
		func(i int) (words, small string, usable bool) { return names[i], note(i), i <= at },
		func(int) {},
	)
	list.Select(at)
	list.ScrollTo(at)
	list.OnSelected = func(i int) {
		w.desk.GoTo(i)
		_, at = w.desk.History()
		list.Refresh()
	}
	d := dialog.NewCustom("History: a click goes there", "Close", list, w.window)
	d.Resize(fyne.NewSize(420, 460))
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(list)
}

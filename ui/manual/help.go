package manual

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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

// ShowCautions shows what every figure is under.
func ShowCautions(host dialogs.Host) {
	grid := container.New(&pairs{})
	for _, caution := range standards.Cautions() {
		text := widget.NewLabel(caution.Text)
		text.Wrapping = fyne.TextWrapWord
		grid.Add(widget.NewLabelWithStyle(caution.About, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		grid.Add(text)
	}
	showText(host, "Cautions", grid)
}

// ShowAbout says what the program is, in which version.
func ShowAbout(host dialogs.Host, version string) {
	label := widget.NewLabel("Stageloom " + version + "\n\n" +
		"Designs the stage system of a live show: what stands where, which cables join into each link, and how much " +
		"loss each link has in hand.\n\nFigures are computed from catalogue maxima and stated rules; each names its " +
		"source. They do not replace a test of the real link, local codes, the venue's rules or licensed practice.\n\n" +
		"Apache License 2.0. The licences of the libraries lie with their sources; the letters are Noto Sans and " +
		"DejaVu, both under free licences.")
	label.Wrapping = fyne.TextWrapWord
	showText(host, "About Stageloom", label)
}

func showText(host dialogs.Host, title string, content fyne.CanvasObject) {
	d := dialogs.New(host, title, container.NewVScroll(container.NewPadded(content)))
	d.Closes(d.Hide)
	d.Fit(dialogs.WideWidth, 620)
	host.Keys().Escapable(d.Hide)
	d.Show()
}

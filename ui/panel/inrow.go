package panel

import "fyne.io/fyne/v2"

// inRow lays objects side by side at their least width, centred in height; what does not fit any more is hidden,
// so that nothing is drawn on top of something else.
type inRow struct{ gap float32 }

// MinSize implements fyne.Layout: the row gives way to what stands beside it.
func (r *inRow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.Size{}
	for i, object := range objects {
		least := object.MinSize()
		if i > 0 {
			size.Width += r.gap
		}
		size.Width += least.Width
		size.Height = max(size.Height, least.Height)
	}
	return size
}

// Layout implements fyne.Layout.
func (r *inRow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for _, object := range objects {
		least := object.MinSize()
		object.Resize(least)
		object.Move(fyne.NewPos(x, (size.Height-least.Height)/2))
		x += least.Width + r.gap
	}
}

package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/ui/chart"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// NewStudyView shows a study: three charts above, then how far each kind reaches, what each change would give, and the
// advice. Tips tell what the names in the charts mean; they may be nil.
func NewStudyView(s text.Study, tips *pointer.Tips) fyne.CanvasObject {
	subtitle := wrapped(s.Subtitle)
	reach := titled("How far each kind reaches", newReachTable(s.Reaches), s.ReachNote)
	if s.Hint != "" {
		left := container.New(&shares{of: []float32{0.6}}, reach)
		return container.NewBorder(container.NewVBox(subtitle, wrapped(s.Hint)), nil, nil, nil, left)
	}
	loss := chart.Of(s.Budget)
	charts := container.NewGridWithColumns(3)
	for _, curves := range []chart.Curves{loss, chart.ReturnLossOf(s.Budget, s.Line), chart.NextOf(s.Budget, s.Line)} {
		drawn := chart.New(curves)
		drawn.Tips = tips
		charts.Add(drawn)
	}
	changes := titled("What would cure it, what would harm it", figureRows(s.Changes), "Each change alone, computed "+s.Budget.Reference()+" from catalogue maxima; kinds of the plan and of the catalogue.")
	advice := titled("Advice beside the verdict", figureRows(s.Advice), "No error rate is predicted: count errors on the real link.")
	below := container.New(&shares{of: []float32{0.44, 0.28, 0.28}}, reach, changes, advice)
	return container.NewBorder(subtitle, nil, nil, nil, container.New(&shares{[]float32{0.46, 0.54}, true}, charts, below))
}

func wrapped(text string) *widget.Label {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	return label
}

// titled puts a heading over something that scrolls, and a note under it.
func titled(title string, content fyne.CanvasObject, note string) fyne.CanvasObject {
	head := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	foot := wrapped(note)
	foot.SizeName, foot.Importance = theme.SizeNameCaptionText, widget.LowImportance
	return container.NewBorder(head, foot, nil, nil, container.NewVScroll(content))
}

func figureRows(figures []text.Figure) fyne.CanvasObject {
	rows := container.NewVBox()
	for _, figure := range figures {
		rows.Add(newFigureRow(figure, budget.Ungraded, nil))
	}
	return rows
}

// newReachTable lays the reaches out in columns under the numbers of joins.
func newReachTable(reaches []text.ReachRow) fyne.CanvasObject {
	table := container.New(&columns{[]float32{0.46, 0.18, 0.18, 0.18}})
	cell := func(text string, bold, right bool) {
		word := canvas.NewText(text, theme.Color(theme.ColorNamePlaceHolder))
		word.TextSize = theme.TextSize() - 1
		if bold {
			word.TextStyle.Bold, word.Color = true, theme.Color(theme.ColorNameForeground)
		}
		if right {
			word.Alignment = fyne.TextAlignTrailing
		}
		table.Add(word)
	}
	for i, head := range []string{"kind; this link's in bold", "no join", "one join", "two joins"} {
		cell(head, false, i > 0)
	}
	for _, row := range reaches {
		cell(row.Kind, row.Used, false)
		for _, each := range row.Cells {
			cell(each.Words, each.Serves, true)
		}
	}
	return table
}

// columns lays objects out row by row in columns of fixed shares of the width.
type columns struct{ shares []float32 }

// columnInset is the room left and right of a row.
const columnInset = 6

// MinSize implements fyne.Layout.
func (c *columns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(200, 0)
	for i := 0; i < len(objects); i += len(c.shares) {
		size.Height += objects[i].MinSize().Height + 4
	}
	return size
}

// Layout implements fyne.Layout.
func (c *columns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for i := 0; i < len(objects); i += len(c.shares) {
		x, height := float32(columnInset), objects[i].MinSize().Height
		for j := 0; j < len(c.shares) && i+j < len(objects); j++ {
			width := c.shares[j] * (size.Width - 2*columnInset)
			objects[i+j].Move(fyne.NewPos(x, y+2))
			objects[i+j].Resize(fyne.NewSize(width, height))
			x += width
		}
		y += height + 4
	}
}

// shares gives each object a share of the width, or of the height.
type shares struct {
	of   []float32
	down bool
}

// MinSize implements fyne.Layout.
func (*shares) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 200) }

// Layout implements fyne.Layout.
func (s *shares) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	at := fyne.NewPos(0, 0)
	for i, object := range objects {
		part := fyne.NewSize(size.Width*s.of[i], size.Height)
		if s.down {
			part = fyne.NewSize(size.Width, size.Height*s.of[i])
		}
		object.Move(at)
		object.Resize(part)
		if s.down {
			at.Y += part.Height
		} else {
			at.X += part.Width
		}
	}
}

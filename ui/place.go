package ui

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// ghost is what is carried over the plan: plain shapes in a layer on top, which never take the pointer.
type ghost struct {
	layer *fyne.Container
	box   *canvas.Rectangle
	name  *canvas.Text
}

func newGhost() *ghost {
	g := &ghost{box: canvas.NewRectangle(nil), name: canvas.NewText("", nil)}
	g.box.CornerRadius, g.box.StrokeWidth = 5, 2
	g.name.TextStyle.Bold, g.name.Alignment = true, fyne.TextAlignCenter
	g.layer = container.NewWithoutLayout(g.box, g.name)
	g.hide()
	return g
}

func (g *ghost) hide() {
	g.box.Hide()
	g.name.Hide()
}

// show draws the ghost centred on a place of the window.
func (g *ghost) show(text string, at fyne.Position) {
	g.box.FillColor, g.box.StrokeColor = theme.Color(theme.ColorNameBackground), theme.Color(theme.ColorNamePrimary)
	g.name.Text, g.name.Color, g.name.TextSize = text, theme.Color(theme.ColorNameForeground), theme.TextSize()
	least := g.name.MinSize()
	size := fyne.NewSize(least.Width+20, least.Height+14)
	g.box.Resize(size)
	g.box.Move(at.Subtract(fyne.NewPos(size.Width/2, size.Height/2)))
	g.name.Resize(size)
	g.name.Move(at.Subtract(fyne.NewPos(size.Width/2, size.Height/2)))
	g.box.Show()
	g.name.Show()
	g.layer.Refresh()
}

// carry moves the ghost; over the plan it snaps to where a drop would put it.
func (w *window) carry(row text.EquipmentRow, at fyne.Position) {
	if metres, over := w.plan.MetresAt(at); over {
		at = w.plan.PlaceOf(w.plan.Snapped(metres))
	}
	w.ghost.show(row.Name, at)
}

// drop places what was carried; beside the plan it is given up.
func (w *window) drop(row text.EquipmentRow, at fyne.Position) {
	w.ghost.hide()
	w.ghost.layer.Refresh()
	if metres, over := w.plan.MetresAt(at); over {
		w.place(row, w.plan.Snapped(metres))
	}
}

// placeInMiddle places a row where the view's middle is, or beside what stands there.
func (w *window) placeInMiddle(row text.EquipmentRow) {
	w.place(row, w.freeNear(w.plan.Snapped(w.plan.Middle())))
}

// clearance is how far in points from another device a place is free: about a device's box.
const clearance = 130.0

// freeNear is the first place on rings round a point that no device stands near.
func (w *window) freeNear(at geom.Point) geom.Point { return w.freeIn(w.desk.Plan(), at) }

// freeIn is freeNear in a plan that is being edited.
func (w *window) freeIn(p *plan.Plan, at geom.Point) geom.Point {
	clear := clearance / w.plan.View().Scale
	for ring := range 40 {
		for step := range max(1, 8*ring) {
			turn := 2 * math.Pi * float64(step) / float64(max(1, 8*ring))
			place := at.Add(geom.Polar(float64(ring)*clear*1.1, turn))
			if isFree(p, place, clear) {
				return w.plan.Snapped(place)
			}
		}
	}
	return at
}

func isFree(p *plan.Plan, at geom.Point, clear float64) bool {
	for device := range p.Devices.All() {
		if device.At().Distance(at) < clear {
			return false
		}
	}
	return true
}

// place adds a device or a position as one step, and selects it. A position takes in what stands inside its outline.
func (w *window) place(row text.EquipmentRow, at geom.Point) {
	var placed plan.Ref
	var taken []plan.DeviceID
	w.do("Place "+row.Name, func(e *plan.Edit) error {
		if row.Position {
			id := e.AddPosition(plan.Position{Name: freePositionName(e.Now()), X: at.X, Y: at.Y, Width: 10, Depth: 8})
			placed, taken = plan.Ref{Table: plan.PositionsTable, Key: plan.Key(id)}, e.TakeIn(id)
			return nil
		}
		if err := w.use(e, row.Kind); err != nil {
			return err
		}
		id := e.AddDevice(plan.Device{Kind: row.Kind, X: at.X, Y: at.Y, Position: e.Now().PositionAt(at)})
		placed = plan.Ref{Table: plan.DevicesTable, Key: plan.Key(id)}
		return nil
	})
	w.desk.Select(placed)
	if row.Position {
		w.tellTaken(nameOf(w.desk.Plan(), placed), taken)
		return
	}
	w.notice.Clear()
}

func freePositionName(p *plan.Plan) string {
	taken := map[string]bool{}
	for position := range p.Positions.All() {
		taken[position.Name] = true
	}
	name := "Position"
	for n := 2; taken[name]; n++ {
		name = fmt.Sprintf("Position %d", n)
	}
	return name
}

// rename asks for the name of the one selected row.
func (w *window) rename() {
	selection := w.desk.Selection()
	if len(selection) != 1 {
		w.notice.Say("Select one device, link, position or area to rename it.")
		return
	}
	ref := selection[0]
	entry := dialogs.NewField(w)
	entry.SetText(nameOf(w.desk.Plan(), ref))
	d := dialog.NewCustomWithoutButtons("Rename", entry, w.window)
	take := func() {
		d.Hide()
		name := strings.TrimSpace(entry.Text)
		w.do("Rename "+name, func(e *plan.Edit) error { return renamed(e, ref, name) })
	}
	entry.OnSubmitted = func(string) { take() }
	ok := widget.NewButton("Rename", take)
	ok.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.Hide), ok})
	d.Resize(fyne.NewSize(380, 150))
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(entry)
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}

func renamed(e *plan.Edit, ref plan.Ref, name string) error {
	switch ref.Table {
	case plan.DevicesTable:
		return plan.Update(e, ref.Key, func(r *plan.Device) { r.Name = name })
	case plan.LinksTable:
		return plan.Update(e, ref.Key, func(r *plan.Link) { r.Name = name })
	case plan.PositionsTable:
		return plan.Update(e, ref.Key, func(r *plan.Position) { r.Name = name })
	case plan.AreasTable:
		return plan.Update(e, ref.Key, func(r *plan.Area) { r.Name = name })
	case plan.LoomsTable:
		return plan.Update(e, ref.Key, func(r *plan.Loom) { r.Name = name })
	}
	return nil
}

package planview

import (
	"fmt"
	"image"
	"math"
	"time"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/model/raster"
	"stageloom/ui/planview/tool"
)

// prepareScene composes the plan anew when it changed.
func (e *Editor) prepareScene() {
	if e.layer.scene != nil {
		return
	}
	e.layer.scene = picture.Compose(e.desk.Plan(), e.desk.Assessment().Budgets)
	e.layer.scene.Nameless, e.layer.scene.Gathered = e.leftOut.Names, true
	e.layer.arrangement, e.layer.picture = nil, nil
}

// prepare makes the layer cover the view: scene, arrangement and picture, each only when it must be.
func (e *Editor) prepare() {
	e.prepareScene()
	if e.layer.arrangement == nil {
		e.layer.arrangement = picture.ArrangeAfter(e.layer.form, e.layer.scene, e.view.Scale, 1, e.inks.Measure)
		e.layer.form = e.layer.arrangement.Form()
		e.layer.picture = nil
	}
	if e.layer.picture != nil {
		return
	}
	e.layer.margin = panMargin
	if e.cause == Zoom {
		e.layer.margin = 0
	}
	o := picture.Options{Selected: map[plan.Ref]bool{}, Level: e.level, Unit: e.unit, Margin: e.layer.margin, LeftOut: e.leftOut, Undone: e.undone, Content: e.content}
	for _, ref := range e.desk.Selection() {
		o.Selected[ref] = true
	}
	e.layer.hidden = plan.Moving{}
	if moving, ready := e.hand.Ready(); ready {
		e.layer.hidden = moving
		o.Hidden = &e.layer.hidden
	}
	e.layer.picture = picture.Letter(e.layer.arrangement, around(e.view, e.layer.margin), o)
	e.layer.painted = false
}

// generate is the raster's generator: the base copied, with what moves painted on top. It runs on the goroutine
// of the user interface.
func (e *Editor) generate(w, h int) image.Image {
	start := time.Now()
	pixels := float64(w) / math.Max(1, e.view.Width)
	if e.frame == nil || e.frame.Rect.Dx() != w || e.frame.Rect.Dy() != h {
		e.frame = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if w < 2 || h < 2 {
		return e.frame
	}
	e.prepare()
	if !e.layer.painted || e.layer.pixels != pixels {
		e.layer.size(pixels)
		e.paintBase(pixels)
		e.layer.painted = true
	}
	e.layer.copyTo(e.frame, e.view)
	e.paintTop(pixels)
	if e.FirstFrame.IsZero() {
		e.FirstFrame = time.Now()
	}
	e.Work.add(e.cause, time.Since(start))
	e.cause = Other
	return e.frame
}

func (e *Editor) paintBase(pixels float64) {
	drawing := raster.NewDrawing(pixels)
	pen := e.inks.Pen(drawing)
	view := e.layer.picture.View
	pen.Fill([]geom.Point{{}, {X: view.Width}, {X: view.Width, Y: view.Height}, {Y: view.Height}}, picture.RoleGround)
	picture.Draw(e.layer.picture.Marks, pen)
	drawing.Paint(e.layer.image)
}

// paintTop paints what moves, the band, the scale bar and the focus ring.
func (e *Editor) paintTop(pixels float64) {
	drawing := raster.NewDrawing(pixels)
	pen := e.inks.Pen(drawing)
	if !e.layer.hidden.Empty() {
		by, figures := e.figures()
		marks := e.layer.picture.Overlay(e.layer.hidden, by, figures)
		picture.Draw(picture.Shifted(marks, e.layer.at(e.view).Scale(-1)), pen)
	}
	if len(e.layer.scene.Devices)+len(e.layer.scene.Positions) == 0 {
		picture.Draw(picture.EmptyMarks(e.view, "Drag equipment onto the plan, or press Ctrl E and type. Without a site, add it to the list only."), pen)
	}
	if e.hovered != "" && e.layer.hidden.Empty() {
		picture.Draw(picture.Shifted(e.layer.picture.HoverMarks(e.hovered), e.layer.at(e.view).Scale(-1)), pen)
	}
	picture.Draw(picture.Shifted(e.gestureMarks(), e.layer.at(e.view).Scale(-1)), pen)
	if s := e.hand.Stretching(); s != nil {
		box := geom.BoxOf(e.view.Point(s.Outline.Min), e.view.Point(s.Outline.Max))
		pen.Panel(box, 6, picture.RoleBandFill, picture.RoleSelected)
		words := fmt.Sprintf("%.1f × %.1f %s", s.Outline.Width()/e.unit, s.Outline.Height()/e.unit, e.unitIn)
		picture.Draw(picture.CornerMarks(e.view, words, e.inks.Measure), pen)
	}
	if band, drawn := e.hand.Band(); drawn {
		pen.Panel(band, 0, picture.RoleBandFill, picture.RoleBandEdge)
	}
	if e.layer.scene.Grounded() {
		picture.Draw(e.layer.picture.ScaleBar(e.view, e.unit, e.unitIn), pen)
	} else {
		picture.Draw(picture.ScaleNote(e.view), pen)
	}
	if note := e.cornerNote(); note != "" {
		picture.Draw(picture.CornerMarks(e.view, note, e.inks.Measure), pen)
	}
	if e.focused && e.keyed {
		pen.Panel(e.view.Box().Inset(0.5), 0, "", picture.RoleFocus)
	}
	drawing.Paint(e.frame)
}

// cornerNote is what the corner of the plan says: what is hidden, and what is faint.
func (e *Editor) cornerNote() string {
	switch {
	case e.undone == "":
		return e.note
	case e.note == "":
		return "faint: what is " + e.undone
	}
	return e.note + "; faint: what is " + e.undone
}

// figures are the vector of the drag and the links that it touches, with the budgets of this moment; carried ones are
// shifted whole. Before the drag begins, or after it was given up, all are as in the plan.
func (e *Editor) figures() (by geom.Point, figures []picture.LinkFigure) {
	p, hidden := e.desk.Plan(), e.layer.hidden
	drag, reckoned := e.hand.Dragging(), map[plan.LinkID]bool{}
	if drag != nil {
		by = drag.By
		for i := range drag.Budgets {
			link, found := p.Link(drag.Budgets[i].Link)
			if !found {
				continue
			}
			figure := picture.FigureOf(p, link, &drag.Budgets[i])
			if hidden.MovedWhole[link.ID] {
				figure = figure.Shifted(by)
			}
			figures, reckoned[link.ID] = append(figures, figure), true
		}
	}
	for _, figure := range e.layer.scene.Links {
		switch {
		case reckoned[figure.ID]:
		case hidden.MovedWhole[figure.ID]:
			figures = append(figures, figure.Shifted(by))
		case drag == nil && hidden.Stretched[figure.ID]:
			figures = append(figures, figure)
		}
	}
	return by, figures
}

// gestureMarks draw a link or a way under the pointer, and what was measured, in points of the layer.
func (e *Editor) gestureMarks() []picture.Mark {
	p := e.layer.picture
	var marks []picture.Mark
	if s := e.hand.Sketching(); s != nil {
		link := plan.Link{Name: e.desk.Plan().FreeLinkName(), From: s.From, To: s.To}
		figure := picture.FigureOf(e.desk.Plan(), link, &s.Budget)
		marks = p.SketchMarks(s.From, s.Port, s.At.Add(e.layer.at(e.view)), figure, s.To, s.ToPort, s.Reason)
	}
	if w := e.hand.Bending(); w != nil {
		if link, found := e.desk.Plan().Link(w.Link); found {
			figure := picture.FigureOf(e.desk.Plan(), link, &w.Budget)
			figure.Way = w.Way
			marks = append(marks, p.WayMarks(figure)...)
		}
	}
	if l := e.hand.Looming(); l != nil {
		figures := make([]picture.LinkFigure, len(l.Links))
		for i, link := range l.Links {
			figures[i] = picture.FigureOf(e.desk.Plan(), link, &l.Budgets[i])
			figures[i].Way = l.Ways[link.ID]
		}
		marks = append(marks, p.LoomMarks(figures, l.Route)...)
	}
	if at, found := e.hand.WayPlace(); found && !e.hand.Busy() {
		marks = append(marks, p.RingMark(at))
	}
	if m := e.hand.Measuring(); m != nil {
		marks = append(marks, p.RulerMarks(m.From, m.To, e.measuredWords(m))...)
	}
	return marks
}

// measuredWords are the length of what is measured, and its parts along the axes.
func (e *Editor) measuredWords(m *tool.Measured) string {
	along := m.To.Sub(m.From)
	figure := func(metres float64) string { return fmt.Sprintf("%.1f %s", math.Abs(metres)/e.unit, e.unitIn) }
	return fmt.Sprintf("%s   (%s across, %s up)", figure(along.Length()), figure(along.X), figure(along.Y))
}

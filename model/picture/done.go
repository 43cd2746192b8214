package picture

import (
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Sizes in points of the mark of what is done on site: how far beside its line it runs, how long its pieces are and what parts
// them, and the shortest line that bears it.
const (
	doneBeside = 3.6
	donePiece  = 7.0
	doneGap    = 3.0
	doneLeast  = 60.0
)

// doneMarks are a thin mark along a link that tells how far it is on site: one piece beside its line where it is laid, two
// where it is joined, three where it was tested.
func doneMarks(ref Ref, link *LinkFigure, points []geom.Point) []Mark {
	steps := slices.Index(plan.Steps(), link.Done) + 1
	way := geom.Polyline(points)
	length := way.Length()
	if steps == 0 || length < doneLeast {
		return nil
	}
	beside := geom.Polyline(shifted(points, doneBeside))
	marks := make([]Mark, 0, steps)
	start := min(0.3*length, 90)
	for n := range steps {
		from := start + float64(n)*(donePiece+doneGap)
		marks = append(marks, Mark{Ref: ref, Shape: Stroke, Role: RoleLinkDone, Points: beside.Cut(from, from+donePiece)})
	}
	return marks
}

// done reports whether a link is done up to a step; blank is none.
func (l *LinkFigure) done(step string) bool {
	return step != "" && plan.Link{Done: l.Done}.Is(step)
}

// fadeLink begins marks of a link, which are faint where no level of it is shown or where it is done already.
func (p *Picture) fadeLink(link *LinkFigure) {
	p.fade(link.Levels[:]...)
	p.fading = p.fading || link.done(p.options.Undone)
}

package ui

import (
	"fmt"
	"runtime"
	"time"

	"fyne.io/fyne/v2"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/planview"
	"stageloom/ui/text"
)

// asked is the window as questions see it.
type asked struct{ w *window }

var _ answers.Window = asked{}

// State implements [answers.Window].
func (q asked) State() answers.State {
	names, at := q.w.desk.History()
	s := answers.State{
		Title: q.w.desk.Title(), Path: q.w.desk.Path(), Unsaved: q.w.desk.Unsaved(), ReadOnly: q.w.desk.ReadOnly(),
		Notice: q.w.notice.Text(), History: names, Step: at, Links: map[string]answers.Link{}, Scale: q.w.plan.View().Scale,
		Dragging: q.w.plan.Dragging() != nil, Overlays: len(q.w.window.Canvas().Overlays().List()),
		Focus: fmt.Sprintf("%T", q.w.window.Canvas().Focused()), Unplaced: len(q.w.plan.Unplaced()), Tip: q.w.tips.Words(),
		Table: q.w.drawer.State(), Day: q.w.dayState(), Lists: answers.Lists(q.w.window.Canvas()),
	}
	for _, cause := range planview.Causes() {
		s.Frames += q.w.plan.Work.Count(cause)
	}
	for _, ref := range q.w.desk.Selection() {
		s.Selection = append(s.Selection, nameOf(q.w.desk.Plan(), ref))
	}
	budgets := append([]budget.Budget(nil), q.w.desk.Assessment().Budgets...)
	for _, b := range append(budgets, q.w.preview.Budgets...) {
		s.Links[b.Name] = answers.Link{Grade: string(b.Grade), Label: b.Label(), Run: b.Run, Margin: b.MarginDB, Missing: b.Missing, Cables: len(q.w.desk.Plan().SegmentsOf(b.Link))}
	}
	return s
}

func nameOf(p *plan.Plan, ref plan.Ref) string { return text.NameOf(p, ref) }

// onOutline is a place just inside the outline of a position where nothing else is hit: devices cover the middle, and names
// some of the edge.
func (q asked) onOutline(ref plan.Ref, box geom.Box) geom.Point {
	inside := box.Inset(3)
	corners := inside.Corners()
	for i, corner := range corners {
		for _, share := range []float64{0, 0.25, 0.5, 0.75} {
			at := corner.Between(corners[(i+1)%len(corners)], share)
			if hit, found := q.w.plan.Pick(at); found && hit == ref {
				return at
			}
		}
	}
	return inside.Min
}

// Row implements [answers.Window].
func (q asked) Row(table, name, port string) answers.Place {
	info, found := plan.TableNamed(table)
	if !found {
		return answers.Place{}
	}
	for row := range info.Rows(q.w.desk.Plan()) {
		ref := plan.Ref{Table: table, Key: info.KeyOf(row)}
		if nameOf(q.w.desk.Plan(), ref) != name {
			continue
		}
		ref.Part = port
		box, found := q.w.plan.Where(ref)
		middle := box.Centre()
		if table == plan.PositionsTable {
			middle = q.onOutline(ref, box)
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(q.w.plan)
		scale := float64(q.w.window.Canvas().Scale())
		return answers.Place{X: (float64(at.X) + middle.X) * scale, Y: (float64(at.Y) + middle.Y) * scale, Found: found}
	}
	return answers.Place{}
}

// Item implements [answers.Window].
func (q asked) Item(words string) answers.Place { return answers.Find(q.w.window.Canvas(), words) }

// Frames implements [answers.Window].
func (q asked) Frames(forget bool) map[string]answers.Frames {
	answer := map[string]answers.Frames{}
	work := &q.w.plan.Work
	for _, cause := range planview.Causes() {
		ms := func(share float64) float64 { return float64(work.Share(cause, share).Microseconds()) / 1000 }
		answer[string(cause)] = answers.Frames{Count: work.Count(cause), Median: ms(0.5), Share95: ms(0.95), Slowest: ms(1)}
	}
	if forget {
		work.Forget()
	}
	return answer
}

// Memory implements [answers.Window].
func (q asked) Memory() answers.Memory {
	runtime.GC()
	var stats runtime.MemStats
	runtime.ReadMemStats(&stats)
	return answers.Memory{Heap: float64(stats.HeapAlloc) / 1e6, Start: float64(q.w.plan.FirstFrame.Sub(began).Microseconds()) / 1000}
}

// began is when the program began, as near as this package can tell.
var began = time.Now()

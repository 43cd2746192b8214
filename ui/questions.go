package ui

import (
	"fmt"
	"runtime"
	"time"

	"stageloom/ui/text"

	"fyne.io/fyne/v2"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/planview"
)

// asked is the window as questions see it.
type asked struct{ *window }

var _ answers.Window = asked{}

// State implements [answers.Window].
func (w asked) State() answers.State {
	names, at := w.desk.History()
	s := answers.State{
		Title: w.desk.Title(), Path: w.desk.Path(), Unsaved: w.desk.Unsaved(), ReadOnly: w.desk.ReadOnly(),
		Notice: w.notice.Text(), History: names, Step: at, Links: map[string]answers.Link{}, Scale: w.plan.View().Scale,
		Dragging: w.plan.Dragging() != nil, Overlays: len(w.window.window.Canvas().Overlays().List()),
		Focus: fmt.Sprintf("%T", w.window.window.Canvas().Focused()), Unplaced: len(w.plan.Unplaced()), Tip: w.tips.Words(),
		Table: w.drawer.State(), Day: w.dayState(),
	}
	for _, cause := range planview.Causes() {
		s.Frames += w.plan.Work.Count(cause)
	}
	for _, ref := range w.desk.Selection() {
		s.Selection = append(s.Selection, nameOf(w.desk.Plan(), ref))
	}
	budgets := append([]budget.Budget(nil), w.desk.Assessment().Budgets...)
	for _, b := range append(budgets, w.preview.Budgets...) {
		s.Links[b.Name] = answers.Link{Grade: string(b.Grade), Label: b.Label(), Run: b.Run, Margin: b.MarginDB, Missing: b.Missing, Cables: len(w.desk.Plan().SegmentsOf(b.Link))}
	}
	return s
}

func nameOf(p *plan.Plan, ref plan.Ref) string { return text.NameOf(p, ref) }

// onOutline is a place just inside the outline of a position where nothing else is hit: devices cover the middle, and names
// some of the edge.
func (w asked) onOutline(ref plan.Ref, box geom.Box) geom.Point {
	inside := box.Inset(3)
	corners := inside.Corners()
	for i, corner := range corners {
		for _, share := range []float64{0, 0.25, 0.5, 0.75} {
			at := corner.Between(corners[(i+1)%len(corners)], share)
			if hit, found := w.plan.Pick(at); found && hit == ref {
				return at
			}
		}
	}
	return inside.Min
}

// Row implements [answers.Window].
func (w asked) Row(table, name, port string) answers.Place {
	info, found := plan.TableNamed(table)
	if !found {
		return answers.Place{}
	}
	for row := range info.Rows(w.desk.Plan()) {
		ref := plan.Ref{Table: table, Key: info.KeyOf(row)}
		if nameOf(w.desk.Plan(), ref) != name {
			continue
		}
		ref.Part = port
		box, found := w.plan.Where(ref)
		middle := box.Centre()
		if table == plan.PositionsTable {
			middle = w.onOutline(ref, box)
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.plan)
		scale := float64(w.window.window.Canvas().Scale())
		return answers.Place{X: (float64(at.X) + middle.X) * scale, Y: (float64(at.Y) + middle.Y) * scale, Found: found}
	}
	return answers.Place{}
}

// Item implements [answers.Window].
func (w asked) Item(words string) answers.Place { return answers.Find(w.window.window.Canvas(), words) }

// Frames implements [answers.Window].
func (w asked) Frames(forget bool) map[string]answers.Frames {
	answer := map[string]answers.Frames{}
	work := &w.plan.Work
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
func (w asked) Memory() answers.Memory {
	runtime.GC()
	var stats runtime.MemStats
	runtime.ReadMemStats(&stats)
	return answers.Memory{Heap: float64(stats.HeapAlloc) / 1e6, Start: float64(w.plan.FirstFrame.Sub(began).Microseconds()) / 1000}
}

// began is when the program began, as near as this package can tell.
var began = time.Now()

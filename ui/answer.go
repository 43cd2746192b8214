package ui

import (
	"encoding/json"
	"fmt"
	"runtime"
	"time"

	"fyne.io/fyne/v2"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/planview"
	"stageloom/ui/text"
)

// Questions answers what a test of the real window asks, one line of JSON for one line of JSON. It is used on the
// goroutine of the user interface only.
type Questions struct{ window *window }

// question is one line asked.
type question struct {
	// Ask is "state", "where", "item", "frames" or "memory".
	Ask string `json:"ask"`
	// Table and Name say which row "where" is about, by its name on screen.
	Table string `json:"table"`
	Name  string `json:"name"`
	// Port is a port of the device that "where" is about; blank is the device itself.
	Port string `json:"port"`
	// Forget makes "frames" begin anew after the answer.
	Forget bool `json:"forget"`
}

// state is the answer to "state".
type state struct {
	Title     string               `json:"title"`
	Path      string               `json:"path"`
	Unsaved   bool                 `json:"unsaved"`
	ReadOnly  string               `json:"read_only"`
	Notice    string               `json:"notice"`
	Selection []string             `json:"selection"`
	History   []string             `json:"history"`
	Step      int                  `json:"step"`
	Links     map[string]linkState `json:"links"`
	Scale     float64              `json:"scale"`
	Dragging  bool                 `json:"dragging"`
	Overlays  int                  `json:"overlays"`
	Focus     string               `json:"focus"`
	Tip       string               `json:"tip"`
	Unplaced  int                  `json:"unplaced_labels"`
	Frames    int                  `json:"frames"`
	Table     tableState           `json:"table"`
	Day       dayState             `json:"day"`
}

// dayState is what the day view shows, blank while it is hidden.
type dayState struct {
	Link  string `json:"link"`
	Done  string `json:"done"`
	Said  string `json:"said"`
	Cable int    `json:"cable"`
}

type linkState struct {
	Grade   string  `json:"grade"`
	Label   string  `json:"label"`
	Run     float64 `json:"run_m"`
	Margin  float64 `json:"margin_dB"`
	Missing float64 `json:"missing_m"`
	Cables  int     `json:"cables"`
}

// place is the answer to "where": the middle of the row's mark in pixels of the window.
type place struct {
	X     float64 `json:"x_px"`
	Y     float64 `json:"y_px"`
	Found bool    `json:"found"`
}

type frames struct {
	Count   int     `json:"count"`
	Median  float64 `json:"p50_ms"`
	Share95 float64 `json:"p95_ms"`
	Slowest float64 `json:"max_ms"`
}

// Answer answers one line.
func (q *Questions) Answer(line []byte) []byte {
	var asked question
	if err := json.Unmarshal(line, &asked); err != nil {
		return refusal(err)
	}
	var answer any
	switch asked.Ask {
	case "state":
		answer = q.window.state()
	case "where":
		answer = q.window.where(asked.Table, asked.Name, asked.Port)
	case "item":
		answer = q.window.find(asked.Name)
	case "memory":
		answer = q.window.memory()
	case "frames":
		answer = q.window.frames(asked.Forget)
	default:
		return refusal(fmt.Errorf("there is no question %q; ask state, where, item, frames or memory", asked.Ask))
	}
	text, err := json.Marshal(answer)
	if err != nil {
		return refusal(err)
	}
	return text
}

func refusal(err error) []byte {
	text, _ := json.Marshal(map[string]string{"error": err.Error()})
	return text
}

func (w *window) state() state {
	names, at := w.desk.History()
	s := state{
		Title: w.desk.Title(), Path: w.desk.Path(), Unsaved: w.desk.Unsaved(), ReadOnly: w.desk.ReadOnly(),
		Notice: w.notice.Text(), History: names, Step: at, Links: map[string]linkState{}, Scale: w.plan.View().Scale,
		Dragging: w.plan.Dragging() != nil, Overlays: len(w.window.Canvas().Overlays().List()),
		Focus: fmt.Sprintf("%T", w.window.Canvas().Focused()), Unplaced: len(w.plan.Unplaced()), Tip: w.tips.Words(),
		Table: w.tables.state(), Day: w.dayState(),
	}
	for _, cause := range planview.Causes() {
		s.Frames += w.plan.Work.Count(cause)
	}
	for _, ref := range w.desk.Selection() {
		s.Selection = append(s.Selection, nameOf(w.desk.Plan(), ref))
	}
	budgets := append([]budget.Budget(nil), w.desk.Assessment().Budgets...)
	for _, b := range append(budgets, w.preview.Budgets...) {
		s.Links[b.Name] = linkState{Grade: string(b.Grade), Label: b.Label(), Run: b.Run, Margin: b.MarginDB, Missing: b.Missing, Cables: len(w.desk.Plan().SegmentsOf(b.Link))}
	}
	return s
}

func nameOf(p *plan.Plan, ref plan.Ref) string { return text.NameOf(p, ref) }

// onOutline is a place just inside the outline of a position where nothing else is hit: devices cover the middle, and names
// some of the edge.
func (w *window) onOutline(ref plan.Ref, box geom.Box) geom.Point {
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

func (w *window) where(table, name, port string) place {
	info, found := plan.TableNamed(table)
	if !found {
		return place{}
	}
	for row := range info.Rows(w.desk.Plan()) {
		ref := plan.Ref{Table: table, Key: info.KeyOf(row)}
		if nameOf(w.desk.Plan(), ref) != name {
			continue
		}
		ref.Part = port
		box, found := w.plan.Where(ref)
		middle := box.Centre()
		if table == "positions" {
			middle = w.onOutline(ref, box)
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.plan)
		scale := float64(w.window.Canvas().Scale())
		return place{X: (float64(at.X) + middle.X) * scale, Y: (float64(at.Y) + middle.Y) * scale, Found: found}
	}
	return place{}
}

func (w *window) frames(forget bool) map[planview.Cause]frames {
	answer := map[planview.Cause]frames{}
	work := &w.plan.Work
	for _, cause := range planview.Causes() {
		ms := func(share float64) float64 { return float64(work.Share(cause, share).Microseconds()) / 1000 }
		answer[cause] = frames{Count: work.Count(cause), Median: ms(0.5), Share95: ms(0.95), Slowest: ms(1)}
	}
	if forget {
		work.Forget()
	}
	return answer
}

// memory is the answer to "memory": the heap after a collection, and the time from the start of the program to the
// first frame of the plan.
type memory struct {
	Heap  float64 `json:"heap_MB"`
	Start float64 `json:"start_ms"`
}

func (w *window) memory() memory {
	runtime.GC()
	var stats runtime.MemStats
	runtime.ReadMemStats(&stats)
	return memory{Heap: float64(stats.HeapAlloc) / 1e6, Start: float64(w.plan.FirstFrame.Sub(began).Microseconds()) / 1000}
}

// began is when the program began, as near as this package can tell.
var began = time.Now()

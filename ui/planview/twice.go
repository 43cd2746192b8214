package planview

import (
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/plan"
	"stageloom/ui/pointer"
)

// twice notes presses until two of them make a double click. What it is about lay under the first one: that press
// selects a device, whose ports then lie under the second.
type twice struct {
	presses pointer.Twice
	ref     plan.Ref
	second  bool
}

// notePress notes a press before the hand has it.
func (e *Editor) notePress(event *desktop.MouseEvent) {
	if event.Button != desktop.MouseButtonPrimary || event.Modifier != 0 {
		e.twice = twice{}
		return
	}
	if e.twice.presses.Press(event.Position, e.Now()) {
		e.twice.second = e.twice.ref != plan.Ref{}
		return
	}
	e.twice.second, e.twice.ref = false, plan.Ref{}
	if ref, found := e.Pick(pointOf(event.Position)); found && ref.Part == "" {
		e.twice.ref = ref
	}
}

// taken returns what was pressed twice, once its second press has ended.
func (t *twice) taken() (ref plan.Ref, second bool) {
	second, t.second = t.second, false
	return t.ref, second
}

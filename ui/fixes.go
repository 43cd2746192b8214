package ui

import (
	"fyne.io/fyne/v2"

	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// fixes are what cures findings for certain; they are tried once a plan.
type fixes struct {
	dialogs.Host
	// step makes an edit, or says why it is refused.
	step func(name string, edit func(*plan.Edit) error)

	// known are those that were asked for on the plan tried.
	known map[string][]checks.Fix
	tried *plan.Plan
}

// of lists the certain fixes of a finding on the plan as it is.
func (x *fixes) of(f checks.Finding) []checks.Fix {
	if x.tried != x.Desk().Plan() {
		x.tried, x.known = x.Desk().Plan(), map[string][]checks.Fix{}
	}
	key := findingKey(f)
	list, known := x.known[key]
	if !known {
		list = checks.Fixes(x.Desk().Plan(), f)
		x.known[key] = list
	}
	return list
}

// findingKey tells one finding from another.
func findingKey(f checks.Finding) string {
	key := f.Rule + f.What
	for _, place := range f.Where {
		key += " " + place.Table + " " + string(place.Key)
	}
	return key
}

// do does one fix of a finding, as one step.
func (x *fixes) do(_ checks.Finding, fix checks.Fix) { x.step("Fix: "+fix.Label, fix.Edit) }

// first does the first certain fix of a finding, or says that there is none.
func (x *fixes) first(f checks.Finding) {
	list := x.of(f)
	if len(list) == 0 {
		x.Say("Nothing cures this for certain: " + f.Remedy)
		return
	}
	x.do(f, list[0])
	x.Say(list[0].Label + ": done. Ctrl Z takes it back.")
}

// items are the certain fixes of a finding as items of a menu.
func (x *fixes) items(f checks.Finding) (items []*fyne.MenuItem) {
	for _, fix := range x.of(f) {
		items = append(items, fyne.NewMenuItem(fix.Label, func() {
			x.do(f, fix)
			x.Say(fix.Label + ": done. Ctrl Z takes it back.")
		}))
	}
	return items
}

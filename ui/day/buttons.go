package day

import (
	"fmt"

	"stageloom/model/plan"
)

// button is something the view does by a key, and by a tap on what names it.
type button struct {
	runes []rune
	// key is what stands on the cap, label what it does.
	key, label string
	do         func()
	// step is the step on site that it marks, blank for the others.
	step string
}

// buttons are those of the sheet that is shown, the steps on site first.
func (v *View) buttons() []button {
	if v.sheet != page {
		take := "Go there"
		if v.sheet == swaps {
			take = "Replace"
		}
		return []button{{key: "Enter", label: take, do: v.take}, {key: "Esc", label: "Back", do: v.back}}
	}
	back := button{key: "Esc", label: "Plan", do: v.back}
	if v.link == "" {
		return []button{back}
	}
	var list []button
	for _, step := range plan.Steps() {
		key := keyOf(step)
		list = append(list, button{runes: []rune(key + step[:1]), key: key, label: step, step: step, do: func() { v.mark(step) }})
	}
	return append(list, v.swapButton(), v.faultyButton(),
		button{runes: []rune("uU"), key: "U", label: "Undo", do: v.takeBack},
		button{runes: []rune("pP"), key: "P", label: "Before", do: func() { v.step(-1) }},
		button{runes: []rune("nN "), key: "N", label: "Next", do: func() { v.step(1) }},
		button{runes: []rune("/"), key: "/", label: "Find", do: v.openFind},
		v.leftButton(), back)
}

func (v *View) swapButton() button {
	label := "Swap cable"
	if len(v.segments()) > 1 {
		label = fmt.Sprintf("Swap cable %d", v.order)
	}
	return button{runes: []rune("sS"), key: "S", label: label, do: v.openSwap}
}

func (v *View) faultyButton() button {
	label := "Cable faulty"
	if len(v.segments()) > 1 {
		label = fmt.Sprintf("Cable %d faulty", v.order)
	}
	return button{runes: []rune("fF"), key: "F", label: label, do: v.markFaulty}
}

func (v *View) leftButton() button {
	label := "To do"
	if v.onlyLeft {
		label = "Show all"
	}
	return button{runes: []rune("aA"), key: "A", label: label, do: v.keepLeft}
}

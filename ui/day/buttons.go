package day

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// button is something the view does by a key, and by a tap on what names it.
type button struct {
	runes []rune
	// key is what stands on the cap, label what it does.
	key, label string
	do         func()
	// large tells that it stands above the others, with its words; done that what it marks is so.
	large, done bool
	words       string
}

// buttons are those of the sheet that is shown, the steps on site first.
func (v *View) buttons() []button {
	if v.sheet.checks() {
		return v.checkButtons()
	}
	if v.sheet != page {
		take := "Go there"
		if v.sheet == swaps {
			take = "Replace"
		}
		return []button{{key: "Enter", label: take, do: v.take}, {key: "Esc", label: "Back", do: v.back}}
	}
	back := button{key: "Esc", label: "Plan", do: v.back}
	lineCheck := button{runes: []rune("cC"), key: "C", label: "Line check", do: v.openCheck}
	if v.link == "" {
		return []button{lineCheck, back}
	}
	link, _ := v.row()
	var list []button
	for _, step := range plan.Steps() {
		key := keyOf(step)
		list = append(list, button{
			runes: []rune(key + step[:1]), key: key, label: step, do: func() { v.mark(step) },
			large: true, done: link.Is(step), words: stepWords(link, step),
		})
	}
	return append(list, v.swapButton(), v.faultyButton(),
		button{runes: []rune("uU"), key: "U", label: "Undo", do: v.takeBack},
		button{runes: []rune("pP"), key: "P", label: "Before", do: func() { v.step(-1) }},
		button{runes: []rune("nN "), key: "N", label: "Next", do: func() { v.step(1) }},
		button{runes: []rune("/"), key: "/", label: "Find", do: v.openFind},
		v.leftButton(), lineCheck, back)
}

// stepWords say whether a step on site is done.
func stepWords(link plan.Link, step string) string {
	switch {
	case !link.Is(step):
		return "not " + step
	case link.Moved:
		return "✓ " + strings.ToUpper(step) + " ?"
	}
	return "✓ " + strings.ToUpper(step)
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

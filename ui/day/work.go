package day

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

func (v *View) row() (plan.Link, bool) { return v.assessment.Plan.Link(v.link) }

// mark says that a step is done; said again of the last step that is done, it is taken back. Where the link was moved since,
// saying it again means that it is still so.
func (v *View) mark(step string) {
	link, found := v.row()
	if !found {
		return
	}
	done := link.Done != step || link.Moved
	name, said := "Mark "+link.Name+" "+step, fmt.Sprintf("%s is %s.", link.Name, step)
	switch {
	case link.Is(step) && link.Done != step:
		v.say(fmt.Sprintf("%s is %s already, and %s. %s takes the last step back.", link.Name, step, link.Done, keyOf(link.Done)))
		return
	case !done:
		name, said = "Mark "+link.Name+" not "+step, fmt.Sprintf("%s is not %s any more.", link.Name, step)
	case link.Moved:
		said = fmt.Sprintf("%s is still %s.", link.Name, step)
	}
	v.do(name, said, func(e *plan.Edit) error { return e.MarkDone(link.ID, step, done) })
}

// keyOf is the key of a step.
func keyOf(step string) string { return strings.ToUpper(step[:1]) }

// do makes a step and says it, or why it was refused.
func (v *View) do(name, said string, edit func(*plan.Edit) error) bool {
	if err := v.Do(name, edit); err != nil {
		v.say(reason(err))
		return false
	}
	v.say(said)
	return true
}

// reason is why a step was refused, as a sentence.
func reason(err error) string {
	text := err.Error()
	if errors.Is(err, plan.ErrRefused) {
		text = strings.TrimPrefix(text, plan.ErrRefused.Error()+": ")
	}
	text = strings.TrimRight(text, ".")
	if text == "" {
		return "That did not work."
	}
	return strings.ToUpper(text[:1]) + text[1:] + "."
}

// takeBack undoes the last step of the plan.
func (v *View) takeBack() {
	before := v.assessment.Plan
	if name := v.Undo(); name != "" {
		if v.sheet.checks() {
			v.showUndone(before)
		}
		v.say("Taken back: " + name + ".")
		return
	}
	v.say("There is nothing to take back.")
}

// cableWords name the cable that S and F mean: "LL07, 60 m Cat 6A".
func (v *View) cableWords() string {
	return cabling.Words(v.assessment.Plan, v.segments()[v.order-1:v.order])
}

// uncabled says that the link has no cable to swap or to mark, where that is so.
func (v *View) uncabled() bool {
	link, found := v.row()
	if found && len(v.segments()) == 0 {
		v.say(link.Name + " has no cable in the plan yet. Escape goes to the plan: Ctrl J lays a cable there, Ctrl M picks them all.")
	}
	return !found || len(v.segments()) == 0
}

// openSwap lists what can take the place of the chosen cable.
func (v *View) openSwap() {
	if v.uncabled() {
		return
	}
	v.spares, v.chosen = cabling.Replacements(v.assessment.Plan, v.link, v.order, false), 0
	if len(v.spares) == 0 {
		link, _ := v.row()
		v.say(fmt.Sprintf("Nothing in the stock, and nothing on a less important link, can take the place of %s on %s.", v.cableWords(), link.Name))
		return
	}
	v.sheet, v.said = swaps, ""
	v.Refresh()
}

// touched says what the chosen spare does to links that are done on site, before it is laid: "L01, tested, is to be laid
// anew."; blank where nothing lies.
func (v *View) touched() string {
	p := v.assessment.Plan
	if v.sheet != swaps || v.chosen >= len(v.spares) {
		return ""
	}
	next, err := plan.Do(p, nil, v.spares[v.chosen].Edit)
	if err != nil {
		return ""
	}
	lines := text.OnSite(p, next)
	if len(lines) == 0 {
		return ""
	}
	return strings.Join(lines, "; ") + "."
}

// swap lays the chosen spare.
func (v *View) swap() {
	link, _ := v.row()
	candidate, was, order := v.spares[v.chosen], v.cableWords(), v.order
	v.sheet = page
	instead := tagOf(candidate.Reel)
	if candidate.Reel.Tag == "" {
		instead = v.units.Piece(candidate.Reel.Length) + " without a tag"
	}
	if candidate.Joined() {
		instead += " and " + tagOf(candidate.Also) + ", joined,"
	}
	if candidate.Replaces > 1 {
		was = cabling.Words(v.assessment.Plan, v.segments()[candidate.First-1:candidate.First-1+candidate.Replaces])
	}
	said := fmt.Sprintf("%s: %s instead of %s.", link.Name, instead, was)
	if link.Done != "" {
		said += " It is to be laid, joined and tested again."
	}
	if !candidate.Free() {
		said += " " + candidate.FromName + " is left without it."
	}
	v.do("Replace "+was+" on "+link.Name, said, candidate.Edit)
	v.order = min(order, len(v.segments()))
	v.Refresh()
}

// markFaulty marks the reel or the house line of the chosen cable: it stays where it is until it is swapped, and is picked no more.
func (v *View) markFaulty() {
	if v.uncabled() {
		return
	}
	link, _ := v.row()
	segment := v.segments()[v.order-1]
	name := v.cableWords()
	switch {
	case segment.Kind != "":
		v.say(fmt.Sprintf("Cable %d, %s, is no reel of the stock and no house line: there is nothing to mark.", v.order, name))
		return
	case v.assessment.Plan.ConditionOf(segment) == plan.Faulty:
		v.say(name + " is marked faulty already. S swaps it.")
		return
	}
	said := name + " is marked faulty. S swaps it, U takes the mark back."
	if link.Is(plan.Tested) {
		said = name + " is marked faulty, and " + link.Name + " is to be tested again. S swaps it, U takes the mark back."
	}
	v.do("Mark "+name+" faulty", said, func(e *plan.Edit) error {
		_, err := e.MarkSegment(link.ID, v.order, plan.Mark{Condition: plan.Faulty, FoundAt: link.Name, FoundOn: v.Today()})
		return err
	})
}

// openFind looks for a link by what is typed.
func (v *View) openFind() {
	v.sheet, v.said = finds, ""
	v.find("")
}

func (v *View) find(text string) {
	v.typed, v.chosen = text, 0
	v.found = Find(v.assessment, v.round, text)
	v.Refresh()
}

// unType takes the last letter off what was typed; in a line check it goes back to the input before.
func (v *View) unType() {
	switch letters, note := []rune(v.typed), []rune(v.check.note); {
	case v.sheet == finds && len(letters) > 0:
		v.find(string(letters[:len(letters)-1]))
	case v.sheet == noting && len(note) > 0:
		v.check.note = string(note[:len(note)-1])
		v.Refresh()
	case v.sheet == check:
		v.goCheck(-1)
	}
}

// listed counts the rows of the list that is shown.
func (v *View) listed() int {
	switch v.sheet {
	case swaps:
		return len(v.spares)
	case finds:
		return len(v.found)
	case faults:
		return len(v.check.open) + len(v.check.cleared)
	}
	return 0
}

// take does what Enter means: it lays the spare, goes to the link or to the input of a fault, keeps a note; in a line check
// the input is OK.
func (v *View) take() {
	switch {
	case v.sheet == check:
		v.hear(plan.HeardOK)
	case v.sheet == noting:
		v.keepNote()
	case v.chosen >= v.listed():
	case v.sheet == swaps:
		v.swap()
	case v.sheet == finds:
		id := v.found[v.chosen].Link
		v.Begin(id)
	case v.sheet == faults:
		fault, _ := v.faultChosen()
		v.BeginCheck(fault.Act.Act.ID, fault.Check.Input)
	}
}

// back leaves a list for the link or the input that it belongs to, and that for the plan.
func (v *View) back() {
	switch v.sheet {
	case page, check:
		v.Leave()
	case faults, noting:
		v.sheet = check
		v.say("")
	default:
		v.sheet = page
		v.say("")
	}
}

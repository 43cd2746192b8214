package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// leftover is a channel that an act has from the house for an input which it does without, and on which another comes up that
// has a channel of that console already.
type leftover struct {
	act     *patch.Act
	line    *patch.Line
	console plan.DeviceID
	numbers []int // all channels of the input there
	left    []int // those that are the house's
	of      []string
}

// leftovers finds what plans have that were patched before an act freed the channels of what it does without.
func leftovers(s *Subject) (all []leftover) {
	house := map[plan.Key]*patch.Line{}
	for _, line := range s.Patch.House().Lines {
		for _, c := range line.Channels() {
			house[rowOf("", c)] = line
		}
	}
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			if !act.House() {
				all = append(all, s.leftOf(act, line, house)...)
			}
		}
	})
	return all
}

// rowOf is the key of what an act says of a channel.
func rowOf(act plan.ActID, c patch.Channel) plan.Key {
	return plan.ConsolePatch{Act: act, Console: c.Console, Channel: c.Number}.Key()
}

// leftOf are the leftovers that one input of an act comes up on, console by console.
func (s *Subject) leftOf(act *patch.Act, line *patch.Line, house map[plan.Key]*patch.Line) (all []leftover) {
	for _, c := range line.Channels() {
		at := slices.IndexFunc(all, func(l leftover) bool { return l.console == c.Console })
		if at < 0 {
			at, all = len(all), append(all, leftover{act: act, line: line, console: c.Console})
		}
		l := &all[at]
		l.numbers = append(l.numbers, c.Number)
		owner := house[rowOf("", c)]
		if owner == nil || owner.Input.ID == line.Input.ID || s.Plan.ConsolePatches.Has(rowOf(act.Act.ID, c)) {
			continue
		}
		if now, found := act.Line(owner.Input.ID); found && now.Struck {
			l.left, l.of = append(l.left, c.Number), append(l.of, owner.Input.Name)
		}
	}
	all = slices.DeleteFunc(all, func(l leftover) bool { return len(l.left) == 0 || len(l.left) == len(l.numbers) })
	for i := range all {
		slices.Sort(all[i].numbers)
	}
	return all
}

// channelLeft tells of inputs that come up twice on a console in an act, since a channel of what it does without stayed there.
func channelLeft(s *Subject) []Finding {
	var sights []sight
	for _, l := range leftovers(s) {
		numbers := make([]string, len(l.numbers))
		for i, number := range l.numbers {
			numbers[i] = fmt.Sprint(number)
		}
		sights = append(sights, sight{
			Finding{
				Severity: Warn, Where: []Place{inputPlace(l.line), {plan.DevicesTable, plan.Key(l.console)}},
				What:   fmt.Sprintf("%s comes up on %s %s", l.line.Input.Name, s.Patch.Name(l.console), words.And(numbers, 3)),
				Remedy: "Leave the channel of what is not used empty in the act.",
			}, l.act, fmt.Sprintf(": the house keeps %s for %s, not used there", s.channelsLeft(l), words.And(l.of, 3)),
		})
	}
	return s.once(sights)
}

// channelsLeft names the channels that were left.
func (s *Subject) channelsLeft(l leftover) string {
	var said []string
	for _, number := range l.left {
		said = append(said, fmt.Sprintf("%s %d", s.Patch.Name(l.console), number))
	}
	return words.And(said, 3)
}

// freeLeft leaves channels empty in the acts of a finding that do without their input.
func freeLeft(s *Subject, f Finding) []Fix {
	var edits []func(*plan.Edit)
	for _, l := range leftovers(s) {
		if slices.Contains(f.Acts, l.act.Act.ID) && f.Where[0] == inputPlace(l.line) && f.Where[1].Key == plan.Key(l.console) {
			edits = append(edits, func(e *plan.Edit) { patch.StrikeChannels(e, l.act.Act.ID, l.console, l.left...) })
		}
	}
	return []Fix{{Label: "Leave empty in the act what is not used", Edit: func(e *plan.Edit) error {
		for _, edit := range edits {
			edit(e)
		}
		return nil
	}}}
}

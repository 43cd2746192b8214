package exchange

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// What a list does to an input.
const (
	ChangeNew   = "new"
	ChangeGone  = "gone"
	ChangeMoved = "moved"
	ChangeField = "changed"
	// ChangeLacks is an input that the list lacks and that stays.
	ChangeLacks = "stays"
)

// InputChange is an input that a list changes, brings or takes away: its number and name as they will be, or were, and how,
// in words.
type InputChange struct {
	Change string
	Number int
	Name   string
	Words  string
}

// String is "1 Kick in changed: 48 V yes, was no".
func (c InputChange) String() string {
	text := fmt.Sprintf("%d %s %s", c.Number, plan.Clipped(c.Name), c.Change)
	if c.Words != "" {
		text += ": " + c.Words
	}
	return text
}

// Outcome is what a list comes to in a plan, reckoned by putting its good rows in and throwing that away again.
type Outcome struct {
	Coming   Coming
	Patching Patching
	// Changes are in the order gone, new, moved, changed, staying, each by number.
	Changes []InputChange
}

// Outcome reckons what the list comes to: for all acts where act is blank, else as the list of that act.
func (in Inputs) Outcome(p *plan.Plan, act plan.ActID) (out Outcome) {
	out.Coming = in.Coming(p, act)
	if len(in.Rows) == 0 {
		return out
	}
	good := in.GoodOnly()
	m := good.match(p, act)
	var ids []plan.InputID
	after, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) (err error) {
		out.Patching, ids, err = good.put(e, act)
		return err
	})
	if err != nil {
		return out // the import itself is refused, and says why
	}
	view := patch.Of(after)
	before, _ := m.view.Act(act)
	now, _ := view.Act(act)
	for i := range m.rows {
		out.Changes = append(out.Changes, m.change(&m.rows[i], before, now, view, ids[i])...)
	}
	out.Changes = append(out.Changes, m.leaving(before, act)...)
	rank := []string{ChangeGone, ChangeNew, ChangeMoved, ChangeField, ChangeLacks}
	slices.SortStableFunc(out.Changes, func(a, b InputChange) int {
		return cmp.Or(slices.Index(rank, a.Change)-slices.Index(rank, b.Change), a.Number-b.Number)
	})
	return out
}

// change says what becomes of the input of a row.
func (m *match) change(row *matched, before, now *patch.Act, view *patch.View, id plan.InputID) []InputChange {
	line, _ := now.Line(id)
	change := InputChange{Number: row.Input.Number, Name: row.Input.Name}
	if row.isNew() {
		change.Change, change.Words = ChangeNew, described(line.Input)+" → "+placeWords(view, line)+m.namesake(row)
		return []InputChange{change}
	}
	var words []string
	change.Change = ChangeField
	for _, difference := range m.differences(row, true) {
		if !row.same || difference.Now != "" && plan.Folded(difference.Now) != plan.Folded(difference.Was) {
			words = append(words, difference.String())
		}
		if difference.Field == Number {
			change.Change = ChangeMoved
		}
	}
	if old, found := before.Line(row.base.ID); found {
		if was, is := placeWords(m.view, old), placeWords(view, line); was != is {
			change.Change = ChangeMoved
			words = append(words, is+", was "+was)
		}
	}
	if len(words) == 0 {
		return nil
	}
	if !row.own && !row.same {
		words = append(words, "it becomes the act's own")
	}
	change.Words = strings.Join(words, "; ")
	return []InputChange{change}
}

// namesake says that the house has an input of this name with another number, which stays in the act beside it.
func (m *match) namesake(row *matched) string {
	for _, house := range m.named[plan.Folded(row.Input.Name)] {
		gone := slices.ContainsFunc(m.struck, func(struck plan.Input) bool { return struck.ID == house.ID })
		if !gone && house.Number != row.Input.Number {
			return fmt.Sprintf("; the house's %d of this name stays", house.Number)
		}
	}
	return ""
}

// described is what stands on a new input.
func described(input plan.Input) string {
	var words []string
	for _, text := range []string{input.Source, patch.UseWords(input.Use), input.Stand, input.Riser, input.RFChannel, frequencyWords(input.Frequency), input.Transmitter} {
		if text != "" && !slices.Contains(words, text) {
			words = append(words, text)
		}
	}
	if input.Phantom {
		words = append(words, Phantom)
	}
	if len(words) == 0 {
		return "no source"
	}
	return strings.Join(words, ", ")
}

// placeWords is where an input is plugged, in words.
func placeWords(view *patch.View, line *patch.Line) string {
	switch {
	case line == nil || !line.Patched():
		return "not patched"
	case !line.Snake.None() && line.Snake != line.At:
		return view.SocketWords(line.Snake) + " → " + view.SocketWords(line.At)
	}
	return view.SocketWords(line.At)
}

// leaving says which inputs go, with the places that they leave, and which stay though the list lacks them.
func (m *match) leaving(before *patch.Act, act plan.ActID) (changes []InputChange) {
	owned := map[plan.InputID]bool{}
	for i := range m.rows {
		if row := &m.rows[i]; !row.isNew() {
			owned[row.base.ID] = true
		}
	}
	for _, input := range m.gone {
		line, _ := before.Line(input.ID)
		change := InputChange{ChangeLacks, input.Number, input.Name, placeWords(m.view, line) + ", the list lacks it"}
		if m.in.Drop {
			change.Change, change.Words = ChangeGone, "with its patch, "+placeWords(m.view, line)+m.elsewhere(input.ID)
		}
		changes = append(changes, change)
	}
	for _, input := range m.doubtful {
		line, _ := before.Line(input.ID)
		changes = append(changes, InputChange{ChangeLacks, input.Number, input.Name, placeWords(m.view, line) + ", its row has faults"})
	}
	for _, house := range m.struck {
		line, found := before.Line(house.ID)
		if found && line.Struck || owned[house.ID] {
			continue
		}
		changes = append(changes, InputChange{ChangeGone, house.Number, house.Name, "the house's, from this act alone, " + placeWords(m.view, line)})
	}
	return changes
}

// elsewhere says in which other acts an input is plugged otherwise.
func (m *match) elsewhere(id plan.InputID) string {
	var names []string
	for _, act := range m.view.Acts {
		if act.House() || act.Act.ID == m.act {
			continue
		}
		if _, found := m.plan.StagePatches.Get(plan.StagePatch{Act: act.Act.ID, Input: id}.Key()); found {
			names = append(names, plan.Clipped(act.Act.Name))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "; what " + strings.Join(names, ", ") + " have of it goes too"
}

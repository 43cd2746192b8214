package text

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// ChangeHeads are the heads of a preview of the patch.
func ChangeHeads() []string {
	return []string{"Act", "Input", "Socket", "Channels", "Lost, or without a place"}
}

// PatchChanges is what an edit of the patch would come to.
type PatchChanges struct {
	Before, After *patch.View
	Changes       []patch.Change
	Left          []patch.Left
}

// Rows are the rows of the preview: what finds no place first, then what loses something, then the others, each act by act.
func (c PatchChanges) Rows() (rows [][]string) {
	for _, left := range c.Left {
		rows = append(rows, []string{c.act(left.Act), c.name(left.Where), "stays", "", left.Words})
	}
	for _, one := range slices.SortedStableFunc(slices.Values(c.Changes), byLoss) {
		rows = append(rows, []string{c.act(one.Act), numbered(one), c.sockets(one), c.channels(one), strings.Join(one.Lost, "; ")})
	}
	return rows
}

// byLoss brings what loses something to the top.
func byLoss(a, b patch.Change) int {
	return cmp.Compare(min(1, len(b.Lost)), min(1, len(a.Lost)))
}

func (c PatchChanges) act(id plan.ActID) string {
	if name := c.After.ActName(id); name != "" {
		return name
	}
	return "all"
}

func (c PatchChanges) name(where plan.Ref) string {
	if input, found := c.After.Plan.Inputs.Get(where.Key); found {
		return fmt.Sprintf("%d %s", input.Number, input.Name)
	}
	output, _ := c.After.Plan.Outputs.Get(where.Key)
	return fmt.Sprintf("%d %s", output.Number, output.Name)
}

func numbered(c patch.Change) string {
	switch {
	case c.Was == 0:
		return fmt.Sprintf("new: %d %s", c.Number, c.Name)
	case c.Number == 0:
		return fmt.Sprintf("gone: %d %s", c.Was, c.Name)
	case c.Was != c.Number:
		return fmt.Sprintf("%d → %d %s", c.Was, c.Number, c.Name)
	}
	return fmt.Sprintf("%d %s", c.Number, c.Name)
}

// fromTo says what was and what is, once where it is the same.
func fromTo(was, is string, before, after bool) string {
	if was = orDash(was); !before {
		return orDash(is)
	}
	if is = orDash(is); !after || was == is {
		return was
	}
	return was + " → " + is
}

func orDash(said string) string {
	if said == "" {
		return "–"
	}
	return said
}

func (c PatchChanges) sockets(one patch.Change) string {
	to := c.After.SocketWords(one.To)
	if one.Unused {
		to = "not used"
	}
	return fromTo(c.Before.SocketWords(one.From), to, one.Was > 0, one.Number > 0)
}

func (c PatchChanges) channels(one patch.Change) string {
	if one.Where.Table == plan.OutputsTable {
		return ""
	}
	return fromTo(channelList(c.Before, one.Before), channelList(c.After, one.After), one.Was > 0, one.Number > 0)
}

func channelList(view *patch.View, channels []patch.Channel) string {
	var said []string
	for _, channel := range channels {
		word := fmt.Sprintf("%s %d", view.Name(channel.Console), channel.Number)
		if !channel.Reached {
			word += " ×"
		}
		if !slices.Contains(said, word) {
			said = append(said, word)
		}
	}
	return strings.Join(said, ", ")
}

// Counted is how many inputs and outputs move: "12 inputs and 1 output"; blank where none does.
func (c PatchChanges) Counted() string {
	inputs, outputs := map[plan.Key]bool{}, map[plan.Key]bool{}
	for _, one := range c.Changes {
		switch {
		case !one.Moved():
		case one.Where.Table == plan.OutputsTable:
			outputs[one.Where.Key] = true
		default:
			inputs[one.Where.Key] = true
		}
	}
	var said []string
	if len(inputs) > 0 {
		said = append(said, words.Counted(len(inputs), "input", "inputs"))
	}
	if len(outputs) > 0 {
		said = append(said, words.Counted(len(outputs), "output", "outputs"))
	}
	return strings.Join(said, " and ")
}

// Told is the preview in one line: "12 inputs move, in House and Brass; 2 renumbered; 1 without a place; 1 loses something."
func (c PatchChanges) Told() string {
	renumbered, lost := map[plan.Key]bool{}, 0
	var acts []string
	for _, one := range c.Changes {
		if one.Was != one.Number && one.Was > 0 && one.Number > 0 {
			renumbered[one.Where.Key] = true
		}
		if len(one.Lost) > 0 {
			lost++
		}
		if name := c.After.ActName(one.Act); name != "" && one.Moved() && !slices.Contains(acts, name) {
			acts = append(acts, name)
		}
	}
	var said []string
	if counted := c.Counted(); counted == "" {
		said = append(said, "nothing moves")
	} else if len(acts) > 0 {
		said = append(said, counted+" changed, in "+words.And(acts, 4))
	} else {
		said = append(said, counted+" changed")
	}
	for _, part := range []struct {
		count int
		words string
	}{{len(renumbered), "with another number"}, {len(c.Left), "without a place"}, {lost, "with a loss"}} {
		if part.count > 0 {
			said = append(said, fmt.Sprintf("%d %s", part.count, part.words))
		}
	}
	line := strings.Join(said, "; ") + "."
	return strings.ToUpper(line[:1]) + line[1:]
}

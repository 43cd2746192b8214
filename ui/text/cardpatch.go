package text

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// listCard is the card of a row of one of the lists: inputs, outputs, acts, house lines, cases.
func listCard(a *assess.Assessment, ref plan.Ref, units words.Units) (card Card, known bool) {
	switch ref.Table {
	case plan.InputsTable:
		return inputCard(a, ref.Key), true
	case plan.OutputsTable:
		return outputCard(a, ref.Key), true
	case plan.ActsTable:
		return actCard(a, ref.Key), true
	case plan.HouseLinesTable:
		return houseLineCard(a, ref.Key, units), true
	case plan.CasesTable:
		return caseCard(a, ref.Key, units), true
	}
	return Card{}, false
}

// inputCard tells of an input: where it goes, act by act as far as acts differ.
func inputCard(a *assess.Assessment, key plan.Key) Card {
	row, _ := a.Plan.Inputs.Get(key)
	c := Card{Title: row.Name, Kind: fmt.Sprintf("input %d", row.Number), Findings: a.FindingsAt(plan.InputsTable, key)}
	if radio := patch.Radio(row.RFChannel, row.Frequency, row.Transmitter); radio != "" {
		c.add("radio", "", radio)
	}
	if act, found := a.Patch.Act(row.Act); found {
		c.addSide(act.Side(row))
	}
	for _, act := range a.Patch.Shown() {
		line, found := act.Line(row.ID)
		if !found || len(a.Patch.Shown()) > 1 && !act.House() && row.Act == "" && !a.Patch.Differs(act, line) {
			continue
		}
		c.add(wayName(a.Patch, act), "", a.Patch.Words(line))
		if multi := a.Patch.MultiOf(line); multi != "" {
			c.add("multi", "", multi)
		}
		if slots := slotsOf(a.Patch, line); slots != "" {
			c.add("on links", "", slots)
		}
		if words := phantomRow(a.Patch, act, line); words != "" {
			c.add("48 V", "", words)
		}
	}
	for _, act := range a.Patch.Acts {
		if last, heard := a.Plan.Checked(act.Act.ID, row.ID); heard {
			note := strings.TrimPrefix(a.Patch.ActName(act.Act.ID)+": "+last.Note, ": ")
			c.add("line check", patch.HeardWords(last), strings.TrimSuffix(note, ": "))
		}
	}
	return c
}

// addSide says which side of a stereo pair a row is.
func (c *Card) addSide(side string) {
	if side != "" {
		c.add("stereo", "", side)
	}
}

// wayName names the act where there are several.
func wayName(v *patch.View, act *patch.Act) string {
	if name := v.ActName(act.Act.ID); name != "" {
		return name
	}
	return "path"
}

func slotsOf(v *patch.View, line *patch.Line) string {
	var said []string
	for _, channel := range line.Channels() {
		if words := v.SlotWords(channel.Hops); words != "" {
			said = append(said, fmt.Sprintf("%s to %s %d", words, v.Name(channel.Console), channel.Number))
		}
	}
	return strings.Join(said, "; ")
}

// outputCard tells of an output.
func outputCard(a *assess.Assessment, key plan.Key) Card {
	row, _ := a.Plan.Outputs.Get(key)
	c := Card{Title: row.Name, Kind: fmt.Sprintf("output %d", row.Number), Findings: a.FindingsAt(plan.OutputsTable, key)}
	if radio := patch.Radio(row.RFChannel, row.Frequency, row.Pack); radio != "" {
		c.add("radio", "", radio)
	}
	c.addSide(a.Patch.House().OutputSide(row))
	house := ""
	for _, act := range a.Patch.Shown() {
		for _, line := range act.Outputs {
			if line.Output.ID != row.ID {
				continue
			}
			words := a.Patch.OutputWords(line)
			if words != house {
				c.add(wayName(a.Patch, act), "", words)
			}
			if act.House() {
				house = words
			}
		}
	}
	return c
}

// actCard tells of an act.
func actCard(a *assess.Assessment, key plan.Key) Card {
	act, found := a.Patch.Act(plan.ActID(key))
	if !found {
		return Card{}
	}
	c := Card{Title: act.Act.Name, Kind: "act", Subtitle: act.Act.Stage, Findings: a.FindingsAt(plan.ActsTable, key)}
	own, struck := 0, 0
	for _, line := range act.Lines {
		switch {
		case line.Struck:
			struck++
		case a.Patch.Differs(act, line):
			own++
		}
	}
	c.add(plan.InputsTable, fmt.Sprint(len(act.Lines)-struck), fmt.Sprintf("%d different from the house, %d not used", own, struck))
	for _, guest := range act.Guests {
		c.add("brings", "", a.Patch.Name(guest))
	}
	return c
}

// houseLineCard tells of a line that the venue owns.
func houseLineCard(a *assess.Assessment, key plan.Key, units words.Units) Card {
	row, _ := a.Plan.HouseLines.Get(key)
	c := Card{Title: "House line " + row.Name, Kind: "the venue's", Subtitle: cableKindName(a.Plan, row.Kind), Findings: a.FindingsAt(plan.HouseLinesTable, key)}
	c.add("length", units.Metres(row.Length), "")
	if row.Condition == plan.Suspect || row.Condition == plan.Faulty {
		c.add("it is", row.Condition, row.Reason)
	}
	for segment := range a.Plan.Segments.All() {
		if segment.HouseLine == row.ID {
			link, _ := a.Plan.Link(segment.Link)
			c.add("in "+link.Name, fmt.Sprintf("cable %d", segment.Order), "")
		}
	}
	return c
}

// caseCard tells what lives in a case.
func caseCard(a *assess.Assessment, key plan.Key, units words.Units) Card {
	row, _ := a.Plan.Cases.Get(key)
	c := Card{Title: row.Name, Kind: "case", Findings: a.FindingsAt(plan.CasesTable, key)}
	reels, metres := 0, 0.0
	for reel := range a.Plan.Reels.All() {
		if reel.Case == row.ID {
			reels += reel.Count()
			metres += float64(reel.Count()) * reel.Length
		}
	}
	c.add("cables", fmt.Sprint(reels), units.Metres(metres)+" in all")
	return c
}

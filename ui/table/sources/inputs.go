package sources

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// inputRow is an input with the names of what it refers to.
type inputRow struct {
	input             plan.Input
	act, socket, side string
	order             int
}

// Inputs is a row an input: those of all acts first, then act by act, each by number.
func Inputs(a *assess.Assessment, units words.Units) table.Source {
	p := a.Plan
	var rows []inputRow
	sides := inputSides(p)
	for input := range p.Inputs.All() {
		act, _ := p.Acts.Get(plan.Key(input.Act))
		row := inputRow{input: input, act: act.Name, side: sides[input.ID], order: act.Order}
		patched, found := p.StagePatches.Get(plan.StagePatch{Act: input.Act, Input: input.ID}.Key())
		if device, known := p.Device(patched.Device); found && known {
			row.socket = fmt.Sprintf("%s %d", device.Name, patched.Socket)
		}
		rows = append(rows, row)
	}
	slices.SortStableFunc(rows, func(x, y inputRow) int {
		return cmp.Or(cmp.Compare(x.order, y.order), cmp.Compare(x.input.Number, y.input.Number), words.Natural(x.input.Name, y.input.Name))
	})
	return &table.List[inputRow]{
		ID: "inputs", One: "input", Many: "inputs", Rows: rows,
		First: "There is no input yet. Press Insert to begin the input list.",
		RefOf: func(r inputRow) plan.Ref { return plan.RefOf(r.input) },
		NameOf: func(r inputRow) string {
			return strings.TrimSpace(fmt.Sprintf("input %d %s", r.input.Number, r.input.Name))
		},
		Fields: inputColumns(asField[inputRow]{plan.InputsTable, fields.On(p, a.Reckoner(), units), func(r inputRow) any { return r.input }}, p.Acts.Len() > 0),
		Add:    addInput,
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			return eachRef(refs, func(key plan.Key) error { e.RemoveInput(plan.InputID(key)); return nil })
		},
	}
}

// addInput adds an input of the same act, under the next number that is free.
func addInput(e *plan.Edit, after plan.Ref) (plan.Ref, error) {
	like, _ := e.Now().Inputs.Get(after.Key)
	next := 0
	for input := range e.Now().Inputs.All() {
		next = max(next, input.Number)
	}
	if next >= mostInputs {
		return plan.Ref{}, fmt.Errorf("number %d is taken, and there is none above it", mostInputs)
	}
	row := plan.Input{Number: next + 1, Name: fmt.Sprintf("Input %d", next+1), Act: like.Act, Use: like.Use, Riser: like.Riser}
	return plan.Ref{Table: plan.InputsTable, Key: plan.Key(e.AddInput(row))}, nil
}

const mostInputs = 9999

// inputSides say of inputs which side of a pair they are: "L of 8", "R of 7".
func inputSides(p *plan.Plan) map[plan.InputID]string {
	sides := map[plan.InputID]string{}
	for left := range p.Inputs.All() {
		if right, found := p.Inputs.Get(plan.Key(left.Right)); found {
			sides[left.ID] = fmt.Sprintf("L of %d", right.Number)
			if sides[right.ID] == "" {
				sides[right.ID] = fmt.Sprintf("R of %d", left.Number)
			}
		}
	}
	return sides
}

// stereoColumn is the column of sides, aside where the plan has no pair.
func stereoColumn(pairs bool) table.Column {
	c := column("stereo", "Stereo", 70, "L of 8: the left side of a pair whose right side is number 8; R of 7: the right side of that.")
	c.Aside = !pairs
	return c
}

func hasPairs(p *plan.Plan) bool {
	for input := range p.Inputs.All() {
		if input.Right != "" {
			return true
		}
	}
	return false
}

func inputColumns(as asField[inputRow], acts bool) []table.ColumnOf[inputRow] {
	act := as.column("act", 90)
	act.Aside = !acts
	return append(inputNames(as), table.ColumnOf[inputRow]{
		Column: stereoColumn(hasPairs(as.state.Plan)),
		Text:   func(r inputRow) string { return r.side },
	}, table.ColumnOf[inputRow]{
		Column: column("socket", "Socket", 84, "the box socket that it is patched to; the patch says so."),
		Text:   func(r inputRow) string { return r.socket },
	}, as.column("riser", 80), as.aside("snake", 100), as.aside("way", 112), as.aside("right", 110), as.aside("rf", 90), as.aside("frequency", 96), as.aside("transmitter", 110), as.aside("check", 84), act, as.column("note", 140))
}

// inputNames are the columns of an input itself, wherever a row has one.
func inputNames[R any](as asField[R]) []table.ColumnOf[R] {
	return []table.ColumnOf[R]{
		as.column("number", 66), as.column("name", 130), as.column("source", 120), as.column("use", 84), as.column("phantom", 46), as.column("stand", 84),
	}
}

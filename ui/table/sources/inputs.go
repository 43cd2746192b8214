package sources

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// inputRow is an input with the names of what it refers to.
type inputRow struct {
	input              plan.Input
	act, socket, snake string
	order              int
}

// Inputs is a row an input: those of all acts first, then act by act, each by number.
func Inputs(a *assess.Assessment, _ panel.Units) table.Source {
	p := a.Plan
	var rows []inputRow
	for input := range p.Inputs.All() {
		act, _ := p.Acts.Get(plan.Key(input.Act))
		snake, _ := p.Device(input.Snake)
		row := inputRow{input: input, act: act.Name, snake: snake.Name, order: act.Order}
		patched, found := p.StagePatches.Get(plan.StagePatch{Act: input.Act, Input: input.ID}.Key())
		if device, known := p.Device(patched.Device); found && known {
			row.socket = fmt.Sprintf("%s %d", device.Name, patched.Socket)
		}
		rows = append(rows, row)
	}
	slices.SortStableFunc(rows, func(x, y inputRow) int {
		return cmp.Or(cmp.Compare(x.order, y.order), cmp.Compare(x.input.Number, y.input.Number), assess.Natural(x.input.Name, y.input.Name))
	})
	return &table.List[inputRow]{
		ID: "inputs", One: "input", Many: "inputs", Rows: rows,
		First: "There is no input yet. Press Insert to begin the input list.",
		RefOf: func(r inputRow) plan.Ref { return plan.RefOf(r.input) },
		NameOf: func(r inputRow) string {
			return strings.TrimSpace(fmt.Sprintf("input %d %s", r.input.Number, r.input.Name))
		},
		Fields: append(inputNames(func(r inputRow) plan.Input { return r.input }), inputPlaces(p)...),
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
	return plan.Ref{Table: "inputs", Key: plan.Key(e.AddInput(row))}, nil
}

const mostInputs = 9999

// inputNames are the columns of an input itself, wherever a row has one.
func inputNames[R any](of func(R) plan.Input) []table.Field[R] {
	return []table.Field[R]{
		{
			Column: number("number", "No.", 46, "its number in the list, 1 to 9999."),
			Text:   func(r R) string { return count(of(r).Number) },
			Value:  func(r R) float64 { return float64(of(r).Number) },
			Set:    whole(1, mostInputs, func(l *plan.Input) *int { return &l.Number }),
		},
		{
			Column: naming(column("name", "Input", 130, "what it is called: Kick in, Lead vocal.")),
			Text:   func(r R) string { return of(r).Name },
			Set:    named(func(l *plan.Input) *string { return &l.Name }),
		},
		{
			Column: column("source", "Source", 120, "what stands there: condenser, radio, keyboard."),
			Text:   func(r R) string { return of(r).Source },
			Set:    words(func(l *plan.Input) *string { return &l.Source }),
		},
		{
			Column:  choice("use", "Use", 50, "how it is plugged: mic, DI or line."),
			Text:    func(r R) string { return of(r).Use },
			Choices: fixed[R]("", "mic", "DI", "line"),
			Set:     oneOf(func(l *plan.Input) *string { return &l.Use }, "", "mic", "DI", "line"),
		},
		{
			Column:  choice("phantom", "48 V", 46, "yes: it wants 48 V."),
			Text:    func(r R) string { return tick(of(r).Phantom) },
			Choices: fixed[R]("", "yes"),
			Set:     yes(func(l *plan.Input) *bool { return &l.Phantom }),
		},
		{
			Column: column("stand", "Stand", 84, "tall boom, short boom, clip."),
			Text:   func(r R) string { return of(r).Stand },
			Set:    words(func(l *plan.Input) *string { return &l.Stand }),
		},
	}
}

func inputPlaces(p *plan.Plan) []table.Field[inputRow] {
	devices, acts := &catalogued{}, &catalogued{}
	for device := range p.Devices.All() {
		devices.add(device.Name, string(device.ID))
	}
	for act := range p.Acts.All() {
		acts.add(act.Name, string(act.ID))
	}
	act := choice("act", "Act", 90, "the act that alone has it; blank is every act.")
	act.Aside = len(acts.names) == 0
	return []table.Field[inputRow]{
		{
			Column: column("socket", "Socket", 84, "the box socket that it is patched to; the patch says so."),
			Text:   func(r inputRow) string { return r.socket },
		},
		{
			Column: column("riser", "Riser", 80, "the riser that it stands on."),
			Text:   func(r inputRow) string { return r.input.Riser },
			Set:    words(func(l *plan.Input) *string { return &l.Riser }),
		},
		{
			Column: aside(column("snake", "Sub-snake", 100, "the sub-snake that it plugs into first; blank is none.")),
			Text:   func(r inputRow) string { return r.snake },
			Set:    refers(devices, func(l *plan.Input, id string) { l.Snake = plan.DeviceID(id) }),
		},
		{
			Column: aside(number("way", "Way", 44, "the way of the sub-snake.")),
			Text:   func(r inputRow) string { return count(r.input.SnakeWay) },
			Value:  func(r inputRow) float64 { return numbered(float64(r.input.SnakeWay), r.input.SnakeWay > 0) },
			Set:    whole(0, 1024, func(l *plan.Input) *int { return &l.SnakeWay }),
		},
		{
			Column:  act,
			Text:    func(r inputRow) string { return r.act },
			Choices: fixed[inputRow](append([]string{""}, acts.names...)...),
			Set:     refers(acts, func(l *plan.Input, id string) { l.Act = plan.ActID(id) }),
		},
		{
			Column: column("note", "Note", 140, "anything the crew should know."),
			Text:   func(r inputRow) string { return r.input.Note },
			Set:    note(func(l *plan.Input) *string { return &l.Note }),
		},
	}
}

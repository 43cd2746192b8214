package sources

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/fields"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// outputRow is one output in the act that is looked at.
type outputRow struct {
	*patch.OutputLine
	from, socket, slots, side, trouble string
}

// outputHeads are the heads of output lists beside the titles of their columns, in English, German and French.
var outputHeads = map[string][]string{
	"number": {"No", "No.", "Nr", "Nr.", "#"}, "name": {"Name", "Output name", "Ausgang", "Sortie"},
	"mix": {"Mix", "Bus", "Aux", "Mix/Bus", "Mix or aux", "Summe"}, "kind": {"Type", "Feeds", "Art", "Genre"},
	"rf": {"RF", "RF ch", "Funk", "Funkkanal"}, "frequency": {"Freq", "MHz", "Frequency (MHz)", "Frequenz", "Fréquence"},
	"pack": {"Pack", "Beltpack", "IEM pack", "Taschenempfänger"}, "note": {"Notes", "Remark", "Remarks", "Bemerkung", "Remarque"},
	"right": {"Right", "Stereo with"},
}

// alsoHeaded gives columns their other heads.
func alsoHeaded[R any](columns []table.ColumnOf[R], heads map[string][]string) []table.ColumnOf[R] {
	for i := range columns {
		columns[i].Also = heads[columns[i].Name]
	}
	return columns
}

// Outputs is a row an output, by number, and where it goes in one act.
func Outputs(a *assess.Assessment, at View) table.Source {
	s := sighted(a, at)
	var rows []outputRow
	left := 0
	for _, line := range s.act.Outputs {
		if at.Used && line.Struck {
			left++
			continue
		}
		rows = append(rows, s.outputRow(line))
	}
	as := asField[outputRow]{plan.OutputsTable, fields.On(a.Plan, a.Reckoner(), words.Units{}), func(r outputRow) any { return r.Output }}
	return &table.List[outputRow]{
		ID: "outputs", One: "output", Many: "outputs", Rows: rows, Without: leftOut(left, "house output", "house outputs"),
		First: "There is no output yet. Press Insert to begin the output list.",
		RefOf: func(r outputRow) plan.Ref { return plan.RefOf(r.Output) },
		NameOf: func(r outputRow) string {
			return strings.TrimSpace(fmt.Sprintf("output %d %s", r.Output.Number, r.Output.Name))
		},
		Fields: alsoHeaded(append([]table.ColumnOf[outputRow]{as.column("number", 66), as.column("name", 150), as.column("mix", 90), as.column("kind", 70), {
			Column: stereoColumn(slices.ContainsFunc(rows, func(r outputRow) bool { return r.side != "" })),
			Text:   func(r outputRow) string { return r.side },
		}}, append(s.outputPlaces(), as.aside("right", 110), as.aside("rf", 90), as.aside("frequency", 96), as.aside("pack", 96), as.column("note", 200))...), outputHeads),
		Add: func(e *plan.Edit, _ plan.Ref) (plan.Ref, error) {
			next := 0
			for output := range e.Now().Outputs.All() {
				next = max(next, output.Number)
			}
			id := e.AddOutput(plan.Output{Number: min(next+1, mostInputs), Name: fmt.Sprintf("Output %d", next+1)})
			return plan.Ref{Table: plan.OutputsTable, Key: plan.Key(id)}, nil
		},
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			return eachRef(refs, func(key plan.Key) error { e.RemoveOutput(plan.OutputID(key)); return nil })
		},
	}
}

func (s *patching) outputRow(line *patch.OutputLine) outputRow {
	row := outputRow{OutputLine: line, from: s.view.Name(line.Console), socket: s.view.SocketWords(line.Socket), slots: s.view.SlotWords(line.Hops), side: s.act.OutputSide(line.Output)}
	if line.Struck {
		row.socket = struck
	}
	var said []string
	for _, finding := range s.FindingsAt(plan.OutputsTable, line.Output.Key()) {
		if len(finding.Acts) == 0 || slices.Contains(finding.Acts, s.act.Act.ID) {
			said = append(said, finding.Severity.String()+": "+finding.What)
		}
	}
	row.trouble = strings.Join(said, "; ")
	return row
}

func (s *patching) outputPlaces() []table.ColumnOf[outputRow] {
	consoles := []fields.Option{{}}
	for _, id := range s.view.Consoles() {
		consoles = append(consoles, fields.Option{Value: string(id), Words: s.view.Name(id)})
	}
	return []table.ColumnOf[outputRow]{
		{
			Column:  choice("console", "From", 120, "the console that it comes from."),
			Text:    func(r outputRow) string { return r.from },
			Choices: func(outputRow) []string { return optionWords(consoles) },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				if line := s.outputOf(ref); line != nil && typed == s.view.Name(line.Console) {
					return nil
				}
				return s.setOutput(e, ref, func(row *plan.OutputPatch) error {
					id, err := fields.ReadOption(strings.TrimSpace(typed), consoles)
					row.Console = plan.DeviceID(id)
					return err
				})
			},
		},
		{
			Column: column("socket", "Socket", 120, "the output socket that it leaves by: a box and a number, or “free”, “SL free” for the first free; blank is none, in an act as the house; “not used” does without it in an act."),
			Text:   func(r outputRow) string { return r.socket },
			Set:    s.setOutputSocket,
		},
		{
			Column: column("trouble", "What is wrong", 240, "what findings say of it here."),
			Text:   func(r outputRow) string { return r.trouble },
			Tone:   func(r outputRow) table.Tone { return toneOf(r.trouble) },
		},
		{
			Column: aside(column("slots", "Link channels", 120, "the channels on the links that it takes.")),
			Text:   func(r outputRow) string { return r.slots },
		},
	}
}

// setOutput changes where an output goes in the act; one that comes from a console and has a socket is given its slots.
func (s *patching) setOutput(e *plan.Edit, ref plan.Ref, with func(*plan.OutputPatch) error) error {
	id, act := plan.OutputID(ref.Key), s.act.Act.ID
	row, found := e.Now().OutputPatches.Get(plan.OutputPatch{Act: act, Output: id}.Key())
	if !found {
		row, _ = e.Now().OutputPatches.Get(plan.OutputPatch{Output: id}.Key())
	}
	row.Act, row.Output, row.Strike = act, id, false
	if err := with(&row); err != nil {
		return err
	}
	if row.Console != "" && row.Device != "" {
		return patch.SetOutput(e, act, id, row.Console, patch.Socket{Device: row.Device, Number: row.Socket, Output: true})
	}
	if row.Console == "" && row.Device == "" {
		plan.Drop[plan.OutputPatch](e, row.Key())
		return nil
	}
	plan.Put(e, row)
	return nil
}

func (s *patching) setOutputSocket(e *plan.Edit, ref plan.Ref, typed string) error {
	act := s.act.Act.ID
	line := s.outputOf(ref)
	if line != nil && typed == s.outputRow(line).socket {
		return nil
	}
	switch text := strings.ToLower(strings.TrimSpace(typed)); {
	case text == "":
		plan.Drop[plan.OutputPatch](e, plan.OutputPatch{Act: act, Output: plan.OutputID(ref.Key)}.Key())
		return nil
	case withoutIt(text) && s.act.House():
		return fmt.Errorf("only an act does without what the house has; leave it blank to unplug it")
	case withoutIt(text):
		plan.Put(e, plan.OutputPatch{Act: act, Output: plan.OutputID(ref.Key), Strike: true})
		return nil
	}
	usual := plan.DeviceID("")
	if line != nil {
		usual = line.Socket.Device
	}
	to, err := s.readOutput(plan.OutputID(ref.Key), typed, usual)
	if err != nil {
		return err
	}
	return s.setOutput(e, ref, func(row *plan.OutputPatch) error {
		row.Device, row.Socket = to.Device, to.Number
		if row.Console == "" {
			row.Console = s.onlyConsole()
		}
		return nil
	})
}

// outputOf is the output of a row; nil where there is none.
func (s *patching) outputOf(ref plan.Ref) *patch.OutputLine {
	for _, line := range s.act.Outputs {
		if plan.RefOf(line.Output) == ref {
			return line
		}
	}
	return nil
}

// onlyConsole is the console of a plan that has one alone.
func (s *patching) onlyConsole() plan.DeviceID {
	all := slices.DeleteFunc(slices.Clone(s.view.Consoles()), func(id plan.DeviceID) bool { return !s.act.Here(id) })
	if len(all) == 1 {
		return all[0]
	}
	return ""
}

package sources

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/fields"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// patchRow is one input in the act that is looked at. What its cells say is reckoned when they are looked at.
type patchRow struct{ *patch.Line }

// ConsoleColumn is the name of the column of a console, which begins so; the same in another plan with a console of the same
// name.
const ConsoleColumn = "console "

// Patch is who gets what in one act: a row an input, a column a console, the number of the channel in the cell.
func Patch(a *assess.Assessment, at View) table.Source {
	s := sighted(a, at)
	var rows []patchRow
	left := 0
	for _, line := range s.act.Lines {
		if at.Used && line.Struck && line.Input.Act == "" {
			left++
			continue
		}
		rows = append(rows, patchRow{line})
	}
	return &table.List[patchRow]{
		ID: "patch", One: "input", Many: "inputs", Rows: rows, Without: leftOut(left, "house input", "house inputs"),
		First:  "There is no input to patch yet. Begin the input list in the table of inputs, or import one with the Patch menu.",
		RefOf:  func(r patchRow) plan.Ref { return plan.RefOf(r.Input) },
		NameOf: func(r patchRow) string { return inputWords(r.Input) },
		Fields: slices.Concat(
			s.patchNames(), []table.ColumnOf[patchRow]{{
				Column: stereoColumn(hasPairs(s.Plan)), Text: func(r patchRow) string { return s.act.Side(r.Input) },
			}}, []table.ColumnOf[patchRow]{s.socketField()}, s.consoleFields(), s.patchEnds(),
		),
	}
}

// leftOut says how many rows of the house are hidden, blank for none.
func leftOut(count int, one, many string) string {
	if count == 0 {
		return ""
	}
	return words.Counted(count, one, many) + " not used " + words.Plural(count, "is", "are") + " hidden"
}

func inputWords(input plan.Input) string {
	return strings.TrimSpace(fmt.Sprintf("input %d %s", input.Number, input.Name))
}

// patching is the act that a table looks at, with what its cells say.
type patching struct {
	*assess.Assessment
	view     *patch.View
	act      *patch.Act
	channels bool
	// holders are how many inputs are on a socket.
	holders map[patch.Socket]int
	// phantoms is what the act says of 48 V.
	phantoms *patch.PhantomSheet
}

func sighted(a *assess.Assessment, at View) *patching {
	act, found := a.Patch.Act(at.Act)
	if !found {
		act = a.Patch.House()
	}
	s := &patching{Assessment: a, view: a.Patch, act: act, channels: at.Channels, holders: map[patch.Socket]int{}, phantoms: a.Patch.PhantomSheet(act)}
	for _, line := range act.Lines {
		for socket := range line.Sockets() {
			s.holders[socket]++
		}
	}
	return s
}

// socketText is where an input is plugged.
func (s *patching) socketText(line *patch.Line) string {
	if line.Struck {
		return struck
	}
	return s.view.SocketWords(line.At)
}

// slotText are the channels on links that an input takes, on its way to all channels.
func (s *patching) slotText(line *patch.Line) string {
	var said []string
	for _, channel := range line.Channels() {
		if words := s.view.SlotWords(channel.Hops); words != "" && !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return strings.Join(said, ", ")
}

// crowded reports whether an input shares a socket with another.
func (s *patching) crowded(line *patch.Line) bool {
	for socket := range line.Sockets() {
		if s.holders[socket] > 1 {
			return true
		}
	}
	return false
}

// struck is what a cell says of an input that the act does without.
const struck = "not used"

// withoutIt reports whether a typed text says that an act does without what the house has; older words of it are read too.
func withoutIt(text string) bool {
	return slices.Contains([]string{struck, "unused", "struck", "strike", "-"}, text)
}

// stands says whether an act has an input from the house or otherwise.
func (s *patching) stands(line *patch.Line) string {
	switch {
	case s.act.House():
		return ""
	case line.Struck:
		return struck
	case line.Input.Act == s.act.Act.ID:
		return "this act's"
	case s.view.Differs(s.act, line):
		return "different"
	}
	return "as in the house"
}

// troubleOf is what findings say of an input in this act.
func (s *patching) troubleOf(line *patch.Line) string {
	var said []string
	for _, finding := range s.FindingsAt(plan.InputsTable, line.Input.Key()) {
		if len(finding.Acts) > 0 && !slices.Contains(finding.Acts, s.act.Act.ID) {
			continue
		}
		what := finding.What
		if first, others := s.firstOf(finding); others && first != line.Input.ID {
			input, _ := s.Plan.Inputs.Get(plan.Key(first))
			what = "as " + inputWords(input)
		}
		said = append(said, finding.Severity.String()+": "+what)
	}
	return strings.Join(said, "; ")
}

// firstOf is the input of a finding that stands first in the act, and whether it speaks of others too: there it stands in words,
// and the others name it.
func (s *patching) firstOf(finding checks.Finding) (first plan.InputID, others bool) {
	count := 0
	for _, line := range s.act.Lines {
		if slices.ContainsFunc(finding.Where, func(place checks.Place) bool { return place.Table == plan.InputsTable && place.Key == line.Input.Key() }) {
			if count++; count > 1 {
				return first, true
			}
			first = line.Input.ID
		}
	}
	return first, false
}

// tone mutes what an act has from the house.
func (s *patching) tone(r patchRow) table.Tone {
	if !s.act.House() && !s.view.Differs(s.act, r.Line) && r.Line.Input.Act == "" {
		return table.Muted
	}
	return table.Usual
}

func (s *patching) patchNames() []table.ColumnOf[patchRow] {
	names := inputNames(asField[patchRow]{plan.InputsTable, fields.On(s.Plan, s.Reckoner(), words.Units{}), func(r patchRow) any { return r.Input }})
	for i := range names {
		names[i].Aside = names[i].Name == "source" || names[i].Name == "stand"
	}
	return names
}

func (s *patching) socketField() table.ColumnOf[patchRow] {
	at := column("socket", "Socket", 120, "where it is plugged: a box and a number, the number alone for the box that it is on, or “free”, “SL free” for the first free socket.")
	if !s.act.House() {
		at.Help = "where it is plugged in this act, by box and number, or “free”, “SL free” for the first free; blank is as in the house, “not used” does without it."
	}
	at.Draggable, at.InOrder = true, true
	return table.ColumnOf[patchRow]{
		Column: at,
		Text:   func(r patchRow) string { return s.socketText(r.Line) },
		Tone: func(r patchRow) table.Tone {
			if !r.Struck && s.crowded(r.Line) {
				return table.Stop
			}
			return s.tone(r)
		},
		SetAll: s.plugAll,
	}
}

// plugAll plugs inputs into the sockets that were typed. What a cell says already changes nothing.
func (s *patching) plugAll(e *plan.Edit, cells []table.Typed, inOrder bool) []error {
	errs := make([]error, len(cells))
	var moves []patch.Move
	var cleared, without []plan.InputID
	var free wanting
	for i, cell := range cells {
		input := plan.InputID(cell.Ref.Key)
		line, found := s.act.Line(input)
		text := strings.ToLower(strings.TrimSpace(cell.Text))
		switch {
		case found && !inOrder && cell.Text == s.socketText(line):
		case text == "":
			cleared = append(cleared, input)
		case withoutIt(text):
			if s.act.House() {
				errs[i] = fmt.Errorf("only an act does without what the house has; leave it blank to unplug it")
			}
			without = append(without, input)
		case free.asked(i, input, cell.Text):
		default:
			to, err := s.view.ReadPlug(cell.Text, s.usual(input))
			if inOrder {
				to.Number += i
			}
			errs[i] = err
			moves = append(moves, patch.Move{Input: input, To: to})
		}
	}
	moves = append(moves, s.freeMoves(free, errs)...)
	if slices.ContainsFunc(errs, func(err error) bool { return err != nil }) {
		return errs
	}
	errs[0] = s.take(e, without, cleared, moves)
	return errs
}

// take lets the act do without inputs, forgets what it says of others, and plugs others in.
func (s *patching) take(e *plan.Edit, without, cleared []plan.InputID, moves []patch.Move) error {
	act := s.act.Act.ID
	if err := patch.Strike(e, act, without...); err != nil {
		return err
	}
	if err := patch.Clear(e, act, cleared...); err != nil {
		return err
	}
	return patch.PlugAll(e, act, moves, s.channels)
}

// usual is the device that a number alone is meant of: that on which the input is, else the only box that there is.
func (s *patching) usual(id plan.InputID) plan.DeviceID {
	if line, found := s.act.Line(id); found && !line.At.None() {
		return line.At.Device
	}
	var only plan.DeviceID
	for _, device := range s.view.WithSockets(false) {
		if slices.Contains(s.view.Consoles(), device) {
			continue
		}
		if only != "" {
			return ""
		}
		only = device
	}
	return only
}

func (s *patching) patchEnds() []table.ColumnOf[patchRow] {
	stands := column("stands", "In this act", 110, "whether it is as in the house, different from the house, this act's alone, or not used.")
	stands.Aside = s.act.House()
	return []table.ColumnOf[patchRow]{
		{
			Column: stands,
			Text:   func(r patchRow) string { return s.stands(r.Line) },
			Tone:   s.tone,
		},
		{
			Column: column("trouble", "What is wrong", 260, "what findings say of it here."),
			Text:   func(r patchRow) string { return s.troubleOf(r.Line) },
			Tone:   func(r patchRow) table.Tone { return toneOf(s.troubleOf(r.Line)) },
		},
		{
			Column: aside(column("slots", "Link channels", 120, "the channels on the links that it takes.")),
			Text:   func(r patchRow) string { return s.slotText(r.Line) },
		},
		{
			Column: aside(column("multi", "Multi", 150, "the multicores that it comes over: name, tape and way.")),
			Text:   func(r patchRow) string { return s.view.MultiOf(r.Line) },
		},
		{
			Column: aside(column("words", "Read aloud", 320, "the whole path in a line.")),
			Text:   func(r patchRow) string { return s.view.Words(r.Line) },
		},
	}
}

// toneOf is the tone of the worst that findings say.
func toneOf(trouble string) table.Tone {
	switch {
	case trouble == "":
		return table.Usual
	case strings.HasPrefix(trouble, "stop"), strings.Contains(trouble, "; stop"):
		return table.Stop
	case strings.HasPrefix(trouble, "warn"), strings.Contains(trouble, "; warn"):
		return table.Warn
	}
	return table.Muted
}

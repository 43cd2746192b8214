package exchange

import (
	"errors"
	"fmt"
	"slices"

	"stageloom/model/fields"
	"stageloom/model/plan"
)

// The fields of an input list are called as on the card and in the table; where an input is plugged is the patch's.
var (
	Number  = fields.Of(plan.InputsTable, "number").Name
	Name    = "Name"
	Source  = fields.Of(plan.InputsTable, "source").Name
	Stand   = fields.Of(plan.InputsTable, "stand").Name
	Phantom = fields.Of(plan.InputsTable, "phantom").Name
	Riser   = fields.Of(plan.InputsTable, "riser").Name
	Box     = "Box"
	Socket  = "Socket"
)

// mostInput is the highest number that an input bears.
const mostInput = 9999

// InputFields are what a column of an input list can mean in any plan; [InputFieldsOf] adds the channels of a plan's consoles.
// In the trade a column headed "Source" is what is on the channel, beside one for its microphone; where another column names
// the input, it is the microphone's.
func InputFields() []Field {
	return []Field{
		{Number, []string{"number", "no", "nr", "#", "input number", "input no", "ch", "channel", "input", "in", "line", "kanal", "voie", "eingang"}, isCount, nil, nil},
		{Name, []string{"name", "instrument", "input name", "input", "channel name", "signal", "description", "what", "source", "instrumente", "nom", "quelle", "signalquelle"}, nil, isCount, nil},
		{Source, []string{"mic", "microphone", "mic di", "mic or di", "mics", "mikrofon", "mikro", "micro", "transducer", "type", "mikrofonierung", "micro di", "source", "quelle"}, nil, nil, nil},
		{Stand, []string{"stand", "stands", "mic stand", "boom", "stativ", "pied"}, nil, nil, nil},
		{Phantom, []string{"48 v", "48v", "48", "phantom", "phantom power", "p48", "phantom 48v", "phantomspeisung", "fantôme"}, isYesOrNo, nil, nil},
		{Riser, []string{"riser", "position", "stage position", "location", "place", "podest", "praticable"}, nil, nil, nil},
		{Box, []string{"box", "stage box", "stagebox", "rack", "stage rack", "box name", "bühnenbox", "boîtier", "boîte de scène"}, nil, isYesOrNo, nil},
		{Socket, []string{"socket", "way", "patch", "stage patch", "input patch", "box socket", "box input", "box way", "stage socket", "socket no", "socket number", "box no", "box number", "buchse", "dose", "prise"}, nil, noSocket, nil},
		{Note, []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "anmerkung", "anmerkungen", "remarque", "remarques"}, nil, nil, nil},
	}
}

// InputRow is one good row of an input list; the input bears no id.
type InputRow struct {
	Row   int
	Input plan.Input
}

// Inputs is an input list as read. Gaps are the numbers that are missing between the first and the last: no fault, but worth
// a look.
type Inputs struct {
	Rows   []InputRow
	Faults []Fault
	Gaps   []Gap
	// Strike says that the list is all that an act has: what the house has besides is struck from it. Without it the list is
	// added to what is there.
	Strike bool
	// sheet is where the rows come from: what it says of sockets and channels is read against a plan.
	sheet sheetRows
}

// Gap is a run of missing numbers.
type Gap struct{ First, Last int }

// String is "12" or "12 to 15".
func (g Gap) String() string {
	if g.First == g.Last {
		return fmt.Sprint(g.First)
	}
	return fmt.Sprintf("%d to %d", g.First, g.Last)
}

// ReadInputs reads the inputs of a grid. Without a column of numbers they are numbered as they stand, from the one after a
// given number on: [LastNumber] where the list is added to what is there, 0 where it is all that there is. A number that
// stands in two rows is a fault of the second.
func ReadInputs(g Grid, l Layout, after int) Inputs {
	r := sheetRows{table: plan.InputsTable, grid: g, layout: l}
	if l.column(Name) < 0 {
		return Inputs{Faults: []Fault{{Row: max(1, l.Head), Words: "no column is the name of the input: say which one is"}}}
	}
	var rows []InputRow
	seen := map[int]int{}
	next := after
	r.each(func() {
		before := len(r.faults)
		input := plan.Input{Name: r.words(Name), Source: r.words(Source), Stand: r.words(Stand), Riser: r.words(Riser), Note: r.words(Note)}
		input.Phantom = take(&r, Phantom, readYes)
		next++
		input.Number = r.inputNumber(next)
		switch {
		case len(r.faults) > before:
		case input.Name == "":
			r.fail(Name, fmt.Errorf("input %d has no name", input.Number))
		case seen[input.Number] > 0:
			r.fail(Number, fmt.Errorf("input %d stands in row %d already", input.Number, seen[input.Number]))
		}
		if len(r.faults) == before {
			seen[input.Number] = r.number()
			rows = append(rows, InputRow{r.number(), input})
		}
	})
	return Inputs{Rows: rows, Faults: r.faults, Gaps: gapsOf(rows), sheet: sheetRows{table: plan.InputsTable, grid: g, layout: l}}
}

func (r *sheetRows) inputNumber(next int) int {
	if r.layout.column(Number) < 0 {
		if next > mostInput {
			r.fail(Number, fmt.Errorf("the list has no column of numbers and counts on past %d: give it one with numbers that are free", mostInput))
		}
		return next
	}
	if r.text(Number) == "" {
		r.fail(Number, errors.New("the input has no number"))
		return 0
	}
	return take(r, Number, r.wholeOf(Number))
}

// LastNumber is the highest number of an act's inputs, those of the house among them, from which a list without numbers
// counts on; for all acts that of any input, so that no act gets a number twice.
func LastNumber(p *plan.Plan, act plan.ActID) int {
	last := 0
	for input := range p.Inputs.All() {
		if act == "" || input.Act == "" || input.Act == act {
			last = max(last, input.Number)
		}
	}
	return last
}

func gapsOf(rows []InputRow) (gaps []Gap) {
	var numbers []int
	for _, row := range rows {
		numbers = append(numbers, row.Input.Number)
	}
	slices.Sort(numbers)
	for i := 1; i < len(numbers); i++ {
		if numbers[i] > numbers[i-1]+1 {
			gaps = append(gaps, Gap{numbers[i-1] + 1, numbers[i] - 1})
		}
	}
	return gaps
}

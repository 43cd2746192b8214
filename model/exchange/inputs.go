package exchange

import (
	"errors"
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// InputRow is one good row of an input list, or one of the two of a stereo pair; the input bears no id.
type InputRow struct {
	Row   int
	Input plan.Input
	// Half is 1 for the left and 2 for the right of a pair that one row names, else 0.
	Half int
	// UseRead and PhantomRead tell that no cell says how the input is plugged, or of 48 V, but a word of its source does.
	UseRead, PhantomRead bool
}

// Inputs is an input list as read. Gaps are the numbers that are missing between the first and the last: no fault, but worth
// a look.
type Inputs struct {
	Rows   []InputRow
	Faults []Fault
	// Told is what of the sheet is not taken as it stands, and no fault: what lies above the head, headings, totals, columns
	// that are not read, what was read from words.
	Told []Fault
	Gaps []Gap
	// Strike says that the list is all that an act has: what the house has besides is struck from it. Without it the list is
	// added to what is there.
	Strike bool
	// Drop says that inputs which the act, or for all acts the house, has of its own and the list lacks leave the plan.
	Drop bool
	// Numbered tells that the list has a column of numbers; without one rows are known by their names.
	Numbered bool
	// doubtful are the numbers and names of rows with faults: what they name is not lacking.
	doubtful []plan.Input
	// after is the number that a list without numbers counts on from.
	after int
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

// inputReader reads the rows of an input list.
type inputReader struct {
	sheetRows
	fields []Field
	rows   []InputRow
	told   []Fault
	// seen is the row of each number, listed are the numbers that any row bears, next is the last one given out.
	seen     map[int]int
	listed   map[int]bool
	next     int
	doubtful []plan.Input
	// read and unknown are what words of sources said, and those that said nothing.
	read, unknown []string
}

// ReadInputs reads the inputs of a grid. Without a column of numbers they are numbered as they stand, from the one after a
// given number on: [LastNumber] where the list is added to what is there, 0 where it is all that there is. A number that
// stands in two rows is a fault of the second. Each row that holds something is a row of the list, a fault, or told.
func ReadInputs(g Grid, l Layout, after int) Inputs {
	r := inputReader{sheetRows: sheetRows{table: plan.InputsTable, grid: g, layout: l}, fields: InputFields(), seen: map[int]int{}, listed: map[int]bool{}, next: after}
	if l.column(Name) < 0 {
		return Inputs{Faults: []Fault{{Row: max(1, l.Head), Words: "no column is the name of the input: say which one is"}}}
	}
	r.unread()
	r.list()
	for r.at = l.Head; r.at < len(g.Rows); r.at++ {
		if filled, _ := r.filled(); filled > 0 && !r.aside() {
			r.take()
		}
	}
	r.sayWords()
	return Inputs{
		Rows: r.rows, Faults: r.faults, Told: r.told, Gaps: gapsOf(r.rows), Numbered: l.column(Number) >= 0, after: after, doubtful: r.doubtful,
		sheet: sheetRows{table: plan.InputsTable, grid: g, layout: l},
	}
}

// take takes the row at hand: one input, or two where it names a pair.
func (r *inputReader) take() {
	before := len(r.faults)
	row := InputRow{Row: r.number(), Input: plan.Input{
		Name: r.words(Name), Source: r.words(Source), Stand: r.words(Stand), Riser: r.words(Riser), Note: r.words(Note),
		Phantom: take(&r.sheetRows, Phantom, readYes), Use: take(&r.sheetRows, Use, readUse),
		RFChannel: r.words(RFChannel), Frequency: take(&r.sheetRows, Frequency, readFrequency), Transmitter: r.words(Transmitter),
	}}
	number, pair := r.inputNumber(row.Input.Name)
	if len(r.faults) == before && row.Input.Name == "" {
		r.fail(Name, fmt.Errorf("input %d has no name", number))
	}
	if len(r.faults) > before {
		r.doubt(number, row.Input.Name, pair)
		return
	}
	r.infer(&row)
	row.Input.Number = number
	name := row.Input.Name
	for half := range 2 {
		if pair {
			row.Half, row.Input.Name, row.Input.Number = left+half, pairedName(name, left+half), number+half
		} else if half > 0 {
			return
		}
		r.put(row)
	}
	r.tell("", fmt.Sprintf("it names a pair and is taken as two inputs, %d %s and %d %s", number, plan.Clipped(pairedName(name, left)), number+1, plan.Clipped(pairedName(name, right))))
}

// doubt notes what a row with faults is about, as far as it can be read.
func (r *inputReader) doubt(number int, name string, pair bool) {
	if r.layout.column(Number) < 0 {
		number = 0 // it was only counted
	}
	r.doubtful = append(r.doubtful, plan.Input{Number: number, Name: name})
	if pair {
		r.doubtful = append(r.doubtful, plan.Input{Number: number, Name: pairedName(name, left)}, plan.Input{Number: number + 1, Name: pairedName(name, right)})
	}
}

// put takes an input unless its number was taken before.
func (r *inputReader) put(row InputRow) {
	if first := r.seen[row.Input.Number]; first > 0 {
		r.fail(Number, fmt.Errorf("input %d stands in row %d already", row.Input.Number, first))
		r.doubt(0, row.Input.Name, false)
		return
	}
	r.seen[row.Input.Number] = row.Row
	r.rows = append(r.rows, row)
}

// list learns which numbers the list has, so that a pair takes none that is another row's.
func (r *inputReader) list() {
	for r.at = r.layout.Head; r.at < len(r.grid.Rows); r.at++ {
		text := r.text(Number)
		if first, is, err := readPair(text); is && err == nil {
			r.listed[first], r.listed[first+1] = true, true
		} else if number, err := readCount(text, 1, mostInput); err == nil {
			r.listed[number] = true
		}
	}
}

// inputNumber is the number of the row at hand, the first of two where it names a pair.
func (r *inputReader) inputNumber(name string) (number int, pair bool) {
	named := pairName.MatchString(name)
	if r.layout.column(Number) < 0 {
		r.next++
		number = r.next
		if named {
			r.next++
		}
		if r.next > mostInput {
			r.fail(Number, fmt.Errorf("the list has no column of numbers and counts on past %d: give it one with numbers that are free", mostInput))
		}
		return number, named
	}
	text := r.text(Number)
	if text == "" {
		r.fail(Number, errors.New("the input has no number"))
		return 0, false
	}
	if first, is, err := readPair(text); is {
		if err != nil {
			r.fail(Number, err)
		}
		return first, true
	}
	number = take(&r.sheetRows, Number, r.wholeOf(Number))
	if named && number > 0 {
		if number == mostInput || r.listed[number+1] {
			r.tell(Name, fmt.Sprintf("%q reads like a pair, but %d is no free number: it is taken as one input", plan.Clipped(name), number+1))
			return number, false
		}
		r.listed[number+1] = true
		return number, true
	}
	return number, false
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

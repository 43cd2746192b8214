package sources

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

// consoleFields are the consoles that are there in the act.
func (s *patching) consoleFields() (fields []table.ColumnOf[patchRow]) {
	for _, console := range s.consoleColumns() {
		title := s.view.Name(console.id)
		at := number(console.name, title, headingWidth(title), "the channel of "+title+" that gets it; “free” is the first free one, blank takes it off there.")
		at.Draggable, at.InOrder = true, true
		fields = append(fields, s.consoleField(at, console.id))
	}
	return fields
}

// headingWidth is room for a name of any length in a heading, within reason.
func headingWidth(title string) float32 {
	return max(56, min(150, 26+7.5*float32(utf8.RuneCountInString(title))))
}

// consoleColumn is a console that is there in the act, and the name of its column.
type consoleColumn struct {
	id   plan.DeviceID
	name string
}

func (s *patching) consoleColumns() (columns []consoleColumn) {
	told := map[string]int{}
	for _, id := range s.view.Consoles() {
		if !s.act.Here(id) {
			continue
		}
		name := ConsoleColumn + s.view.Name(id)
		if told[name]++; told[name] > 1 {
			name += fmt.Sprintf(" %d", told[name])
		}
		columns = append(columns, consoleColumn{id, name})
	}
	return columns
}

func (s *patching) consoleField(at table.Column, console plan.DeviceID) table.ColumnOf[patchRow] {
	return table.ColumnOf[patchRow]{
		Column: at,
		Text:   func(r patchRow) string { return channelText(r.Line, console) },
		Value: func(r patchRow) float64 {
			if number := r.Number(console); number > 0 {
				return float64(number)
			}
			return math.NaN()
		},
		Tone: func(r patchRow) table.Tone {
			for _, channel := range r.Line.Channels() {
				if channel.Console == console && !channel.Reached {
					return table.Stop
				}
			}
			return s.tone(r)
		},
		SetAll: func(e *plan.Edit, cells []table.Typed, inOrder bool) []error {
			return s.tuneAll(e, console, cells, inOrder)
		},
	}
}

// channelText is the channels of a console that get an input; those that the signal does not reach bear a cross.
func channelText(line *patch.Line, console plan.DeviceID) string {
	var said []string
	for _, channel := range line.Channels() {
		if channel.Console != console {
			continue
		}
		words := strconv.Itoa(channel.Number)
		if !channel.Reached {
			words += " ×"
		}
		if !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return strings.Join(said, ", ")
}

// tuneAll puts inputs on the channels that were typed. What a cell says already changes nothing.
func (s *patching) tuneAll(e *plan.Edit, console plan.DeviceID, cells []table.Typed, inOrder bool) []error {
	errs := make([]error, len(cells))
	var wanted []patch.Wanted
	var free wanting
	for i, cell := range cells {
		input := plan.InputID(cell.Ref.Key)
		if free.asked(i, input, cell.Text) {
			continue
		}
		if line, found := s.act.Line(input); found && !inOrder && cell.Text == channelText(line, console) {
			continue
		}
		numbers, err := readChannels(cell.Text)
		errs[i] = err
		for _, number := range numbers {
			if inOrder && number > 0 {
				number += i
			}
			wanted = append(wanted, patch.Wanted{Input: input, Channel: number})
		}
	}
	numbers, err := s.freeChannels(console, free)
	for i, number := range numbers {
		wanted = append(wanted, patch.Wanted{Input: free.inputs[i], Channel: number})
	}
	if err != nil {
		errs[free.cells[0]] = err
	}
	if slices.ContainsFunc(errs, func(err error) bool { return err != nil }) {
		return errs
	}
	errs[0] = patch.SetChannels(e, s.act.Act.ID, console, wanted)
	return errs
}

// readChannels reads the channels of a cell: "12", "1, 9 ×"; 0 is none.
func readChannels(typed string) (numbers []int, err error) {
	if text := strings.TrimSpace(typed); text == "" || text == "-" {
		return []int{0}, nil
	}
	for part := range strings.SplitSeq(typed, ",") {
		number, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(part), "×")))
		if err != nil || number < 1 {
			return nil, fmt.Errorf("%q is no channel; write its number, or leave it blank", plan.Clipped(typed))
		}
		numbers = append(numbers, number)
	}
	return numbers, nil
}

// ConsoleOf is the console whose column of the table of the patch bears a name.
func ConsoleOf(a *assess.Assessment, act plan.ActID, column string) (plan.DeviceID, bool) {
	s := sighted(a, View{Act: act})
	for _, console := range s.consoleColumns() {
		if console.name == column {
			return console.id, true
		}
	}
	return "", false
}

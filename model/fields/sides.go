package fields

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// rightInputs are the inputs that can be the right side of one: others of its list.
func rightInputs(s State, of plan.Input) []Option {
	options := []Option{{"", noRow}}
	for row := range s.Plan.Inputs.All() {
		if row.Act == of.Act && row.ID != of.ID {
			options = append(options, Option{string(row.ID), numberedName(row.Number, row.Name)})
		}
	}
	return inOrder(options)
}

// rightOutputs are the outputs that can be the right side of one.
func rightOutputs(s State, of plan.Output) []Option {
	options := []Option{{"", noRow}}
	for row := range s.Plan.Outputs.All() {
		if row.ID != of.ID {
			options = append(options, Option{string(row.ID), numberedName(row.Number, row.Name)})
		}
	}
	return inOrder(options)
}

func numberedName(number int, name string) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s", number, name))
}

// inOrder sorts all but the first, which is none, and tells apart those that say the same.
func inOrder(options []Option) []Option {
	slices.SortStableFunc(options[1:], func(a, b Option) int { return words.Natural(a.Words, b.Words) })
	apart(options)
	return options
}

// sideWords is what the list of options says of a side; one that is not in it is called otherwise.
func sideWords(options []Option, id, otherwise string) string {
	for _, option := range options {
		if option.Value == id && id != "" {
			return option.Words
		}
	}
	return otherwise
}

func inputSide(s State, id plan.InputID) string {
	row, found := s.Plan.Inputs.Get(plan.Key(id))
	if !found {
		return ""
	}
	return numberedName(row.Number, row.Name)
}

func outputSide(s State, id plan.OutputID) string {
	row, found := s.Plan.Outputs.Get(plan.Key(id))
	if !found {
		return ""
	}
	return numberedName(row.Number, row.Name)
}

// reading lets the number or the name of an option be typed alone, where one alone has it.
func (f *Field) reading(options func(State, any) []Option) *Field {
	f.reads = func(s State, row any, typed string) (value string, known bool) {
		for _, option := range options(s, row) {
			number, name, _ := strings.Cut(option.Words, " ")
			if option.Value == "" || typed == "" || number != typed && !strings.EqualFold(name, typed) {
				continue
			}
			if known {
				return "", false
			}
			value, known = option.Value, true
		}
		return value, known
	}
	return f
}

func putRightInput(_ State, e *plan.Edit, key plan.Key, value string) error {
	return patch.PairInputs(e, plan.InputID(key), plan.InputID(value))
}

func putRightOutput(_ State, e *plan.Edit, key plan.Key, value string) error {
	return patch.PairOutputs(e, plan.OutputID(key), plan.OutputID(value))
}

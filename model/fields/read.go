package fields

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

const yes = "yes"

// saidOf prints what a column of a row holds.
func (f *Field) saidOf(s State, row, value any) string {
	switch value := value.(type) {
	case bool:
		if value {
			return yes
		}
		return ""
	case string:
		return f.saidWord(s, row, value)
	case float64:
		if value == 0 && f.noughtIsBlank() {
			return ""
		}
		return f.unit.print(s.Units, value)
	case int:
		if value == 0 && f.noughtIsBlank() {
			return ""
		}
		return strconv.Itoa(value)
	case plan.Optional:
		if value.Set {
			return f.unit.print(s.Units, value.Value)
		}
	}
	return ""
}

// saidWord is what a word of the plan says: the name of the row that it refers to, or its words in the list.
func (f *Field) saidWord(s State, row any, value string) string {
	if f.Kind != Choice || value == "" {
		return value
	}
	if table := f.column.Refers(); table != "" {
		return words.Row(s.Plan, plan.Ref{Table: table, Key: plan.Key(value)}, s.Units)
	}
	if f.options != nil {
		for _, option := range f.options(s, row) {
			if option.Value == value {
				return option.Words
			}
		}
	}
	return value
}

// noughtIsBlank reports whether 0 is shown and typed as a blank.
func (f *Field) noughtIsBlank() bool {
	low, _, bounded := f.column.Bounds()
	return f.column.MayBeBlank() && (!bounded || low <= 0)
}

// parse reads a value of the column's type.
func (f *Field) parse(s State, row any, text string) (any, error) {
	switch f.column.Of(row).(type) {
	case bool:
		word, err := readTick(text)
		return word == yes, err
	case float64:
		if text == "" && f.noughtIsBlank() {
			return 0.0, nil
		}
		return f.figure(s, text)
	case int:
		return f.whole(text)
	case plan.Optional:
		if text == "" {
			return plan.Optional{}, nil
		}
		value, err := f.figure(s, text)
		return plan.Some(value), err
	}
	return f.words(s, row, text)
}

// words reads a text: of one line with single blanks, or a note as it was typed.
func (f *Field) words(s State, row any, text string) (any, error) {
	switch {
	case f.Kind == Choice:
		for _, option := range f.options(s, row) {
			if option.Value == text {
				return text, nil
			}
		}
		if text == "" {
			return nil, errors.New("one of the list is needed")
		}
		return nil, fmt.Errorf("%s is not in the list any more", quoted(text))
	case f.Kind == Words:
		text = strings.Join(strings.Fields(text), " ")
	}
	if text == "" && !f.column.MayBeBlank() {
		return nil, errors.New("this cannot be left blank")
	}
	if f.check != nil {
		return text, f.check(text)
	}
	return text, nil
}

// figure reads a figure within its bounds.
func (f *Field) figure(s State, text string) (float64, error) {
	low, high, bounded := f.column.Bounds()
	if text == "" {
		return 0, fmt.Errorf("a figure is needed, for instance %s", f.unit.print(s.Units, max(low, 1)))
	}
	value, err := f.unit.read(s.Units, text)
	if err != nil {
		return 0, err
	}
	if bounded && (value < low || value > high) {
		return 0, fmt.Errorf("%s is out of bounds: it lies between %s and %s", quoted(text), f.unit.print(s.Units, low), f.unit.print(s.Units, high))
	}
	return value, nil
}

// Parse reads a figure within the field's bounds, for a row that is being made.
func (f *Field) Parse(units words.Units, text string) (float64, error) {
	return f.figure(State{Units: units}, strings.TrimSpace(text))
}

// Words reads a text as the field keeps it, for a row that is being made: of a choice among rows the name of one, which need
// not be there yet; blank where it says that there is none.
func (f *Field) Words(text string) (string, error) {
	kept := f
	if table := f.column.Refers(); table != "" {
		kept = Of(table, "name")
	}
	if kept.Kind != Note {
		text = strings.Join(strings.Fields(text), " ")
	}
	if text == "" || kept != f && strings.EqualFold(text, noRow) {
		return "", nil
	}
	if reason := kept.column.Check(text); reason != "" {
		return "", fmt.Errorf("it %s", reason)
	}
	if f.check != nil {
		return text, f.check(text)
	}
	return text, nil
}

// Whole reads a whole number within the field's bounds, for a row that is being made.
func (f *Field) Whole(text string) (int, error) {
	count, err := f.whole(strings.TrimSpace(text))
	if err == nil && count == 0 && f.noughtIsBlank() {
		_, high, _ := f.column.Bounds()
		err = fmt.Errorf("%s is no whole number from 1 to %g", quoted(text), high)
	}
	return count, err
}

// whole reads a whole number within its bounds.
func (f *Field) whole(text string) (int, error) {
	low, high, _ := f.column.Bounds()
	if text == "" && f.noughtIsBlank() {
		return 0, nil
	}
	value, err := strconv.Atoi(text)
	if err != nil || float64(value) < low || float64(value) > high {
		if f.noughtIsBlank() {
			low = 1
		}
		return 0, fmt.Errorf("%s is no whole number from %g to %g", quoted(text), low, high)
	}
	return value, nil
}

// readTick reads yes or no; a tick may be typed as x or 1 too.
func readTick(typed string) (string, error) {
	switch strings.ToLower(typed) {
	case "", "no", "n", "0":
		return "", nil
	case yes, "y", "x", "1", "✓":
		return yes, nil
	}
	return "", fmt.Errorf("%s is neither yes nor no", quoted(typed))
}

// aside stands between the name of an entry, which is enough to type, and what is said beside it.
const aside = " · "

// ReadOption finds the entry whose words or name were typed, or whose words alone begin so.
func ReadOption(typed string, options []Option) (string, error) {
	var begin []Option
	var listed []string
	for _, option := range options {
		name, _, _ := strings.Cut(option.Words, aside)
		if strings.EqualFold(option.Words, typed) || strings.EqualFold(name, typed) && typed != "" || option.Value == typed {
			return option.Value, nil
		}
		if option.Value == "" {
			continue
		}
		listed = append(listed, name)
		if typed != "" && strings.HasPrefix(strings.ToLower(option.Words), strings.ToLower(typed)) {
			begin = append(begin, option)
		}
	}
	switch {
	case len(begin) == 1:
		return begin[0].Value, nil
	case typed == "":
		return "", fmt.Errorf("it cannot be blank; write one of %s", words.Listed(listed))
	case len(begin) > 1:
		var may []string
		for _, option := range begin {
			may = append(may, option.Words)
		}
		return "", fmt.Errorf("%s may be %s; write more of it", quoted(typed), words.Listed(may))
	case len(listed) == 0:
		return "", fmt.Errorf("%s is not there, and neither is any other", quoted(typed))
	}
	return "", fmt.Errorf("%s is none of %s", quoted(typed), words.Listed(listed))
}

// quoted is a text as a message quotes it: clipped.
func quoted(text string) string { return fmt.Sprintf("%q", plan.Clipped(text)) }

package panel

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
)

// Form is what can be changed of what is selected, as text: groups of fields in their order.
type Form struct {
	// Subject tells one selection from another; the fields of one subject keep their places.
	Subject string
	Groups  []FormGroup
}

// FormGroup is some fields under one heading. A folded one shows its heading alone until it is asked for.
type FormGroup struct {
	Name   string
	Folded bool
	Fields []FormField
}

// FormField is one field of a form, for one row or for several of one table.
type FormField struct {
	// ID names the field within its form; it stays when texts change.
	ID, Name string
	// Text is what stands in the field, or the value of the choice; blank where several rows differ.
	Text string
	// Blank says what holds while nothing stands in the field.
	Blank string
	// Choices make it a list of which one is taken; typed text otherwise.
	Choices []Choice
	// Long gives it several lines, and Several tells that it is about rows that differ in it.
	Long, Several bool

	step string
	edit func(text string) (func(*plan.Edit) error, error)
}

// severalValues stands in a field whose rows differ.
const severalValues = "several values"

// Change reads a text that was put into the field: the name of the step and the edit of the plan, nil where the text is
// what stood there, or the reason in words why the text cannot stand.
func (f FormField) Change(text string) (step string, edit func(*plan.Edit) error, err error) {
	if !f.Long {
		text = strings.TrimSpace(text)
	}
	if text == f.Text && !(f.Several && f.Choices != nil) {
		return "", nil, nil
	}
	edit, err = f.edit(text)
	return f.step, edit, err
}

// Field finds a field by its id.
func (f Form) Field(id string) (FormField, bool) {
	for _, group := range f.Groups {
		for _, field := range group.Fields {
			if field.ID == id {
				return field, true
			}
		}
	}
	return FormField{}, false
}

// FormOf is the form of the selection: of one row, of several rows of one table, or of the plan while nothing is selected.
// Rows of several tables have no form.
func FormOf(a *assess.Assessment, selection []plan.Ref, units Units) Form {
	if len(selection) == 0 {
		return planForm(a, units)
	}
	table := selection[0].Table
	keys := make([]plan.Key, 0, len(selection))
	for _, ref := range selection {
		if ref.Table != table {
			return Form{Subject: "several"}
		}
		if ref.Exists(a.Plan) {
			keys = append(keys, ref.Key)
		}
	}
	if of := forms[table]; of != nil && len(keys) > 0 {
		form := of(a, keys, units)
		form.Subject = table
		for _, key := range keys {
			form.Subject += " " + string(key)
		}
		return form
	}
	return Form{Subject: "none"}
}

// forms has the form of each table whose rows have one.
var forms = map[string]func(*assess.Assessment, []plan.Key, Units) Form{
	"links": linkForm, "devices": deviceForm, "positions": positionForm, "areas": areaForm, "looms": loomForm,
	"segments": segmentForm, "reels": reelForm, "inputs": inputForm, "outputs": outputForm, "acts": actForm,
	"house_lines": houseLineForm, "cases": caseForm,
}

// rowsForm builds the form of some rows of one table.
type rowsForm[R plan.Row] struct {
	units Units
	rows  []R
	names string
	form  Form
}

// newForm begins a form of the rows with these keys; name says what a row is called.
func newForm[R plan.Row](table *plan.Table[R], keys []plan.Key, units Units, what string, name func(R) string) *rowsForm[R] {
	b := &rowsForm[R]{units: units}
	for _, key := range keys {
		if row, found := table.Get(key); found {
			b.rows = append(b.rows, row)
		}
	}
	b.names = fmt.Sprintf("%d %s", len(b.rows), what)
	if len(b.rows) == 1 {
		b.names = name(b.rows[0])
	}
	return b
}

// one tells whether the form is about one row alone.
func (b *rowsForm[R]) one() bool { return len(b.rows) == 1 }

func (b *rowsForm[R]) group(name string) *rowsForm[R] {
	b.form.Groups = append(b.form.Groups, FormGroup{Name: name})
	return b
}

// foldUnless folds the last group unless one of the rows has something in it.
func (b *rowsForm[R]) foldUnless(used func(R) bool) {
	b.form.Groups[len(b.form.Groups)-1].Folded = !slices.ContainsFunc(b.rows, used)
}

// add adds a field to the last group; show gives its text for a row.
func (b *rowsForm[R]) add(id, name string, show func(R) string) *FormField {
	f := FormField{ID: id, Name: name, step: b.names + ": " + strings.ToLower(name[:1]) + name[1:], Text: show(b.rows[0])}
	for _, row := range b.rows[1:] {
		if show(row) != f.Text {
			f.Text, f.Several, f.Blank = "", true, severalValues
			break
		}
	}
	group := &b.form.Groups[len(b.form.Groups)-1]
	group.Fields = append(group.Fields, f)
	return &group.Fields[len(group.Fields)-1]
}

// blank says what holds in a blank field, where that is the same for all rows.
func (f *FormField) blank(text string) {
	if !f.Several {
		f.Blank = text
	}
}

// setting makes a field change each row by what a reading of its text gives.
func (b *rowsForm[R]) setting(f *FormField, read func(text string) (func(*R), error)) {
	b.editing(f, func(text string) (func(*plan.Edit, R) error, error) {
		with, err := read(text)
		if err != nil {
			return nil, err
		}
		return func(e *plan.Edit, row R) error { return plan.Update(e, row.Key(), with) }, nil
	})
}

// editing makes a field change each row by an edit.
func (b *rowsForm[R]) editing(f *FormField, read func(text string) (func(*plan.Edit, R) error, error)) {
	rows := b.rows
	f.edit = func(text string) (func(*plan.Edit) error, error) {
		each, err := read(text)
		if err != nil {
			return nil, err
		}
		return func(e *plan.Edit) error {
			for _, row := range rows {
				if err := each(e, row); err != nil {
					return err
				}
			}
			return nil
		}, nil
	}
}

// words adds a field of plain words.
func (b *rowsForm[R]) words(id, name string, at func(*R) *string) *FormField {
	f := b.add(id, name, func(row R) string { return *at(&row) })
	b.setting(f, func(text string) (func(*R), error) { return func(row *R) { *at(row) = text }, nil })
	return f
}

// dated adds a field of words that may name a day.
func (b *rowsForm[R]) dated(id, name string, at func(*R) *string) *FormField {
	f := b.add(id, name, func(row R) string { return *at(&row) })
	b.setting(f, func(text string) (func(*R), error) {
		if wrong := plan.NoSuchDay(text); wrong != "" {
			return nil, fmt.Errorf("there is no day %s: write year-month-day, for instance 2027-06-19", wrong)
		}
		return func(row *R) { *at(row) = text }, nil
	})
	return f
}

// needed adds a field of words that must not be blank.
func (b *rowsForm[R]) needed(id, name string, at func(*R) *string) *FormField {
	f := b.add(id, name, func(row R) string { return *at(&row) })
	b.setting(f, func(text string) (func(*R), error) {
		if text == "" {
			return nil, errors.New("this cannot be left blank")
		}
		return func(row *R) { *at(row) = text }, nil
	})
	return f
}

// note adds a field of several lines.
func (b *rowsForm[R]) note(id, name string, at func(*R) *string) {
	b.words(id, name, at).Long = true
}

// choice adds a list; get and put say what is chosen by its value.
func (b *rowsForm[R]) choice(id, name string, choices []Choice, at func(*R) *string) *FormField {
	f := b.words(id, name, at)
	f.Choices = choices
	return f
}

// yesOrNo adds a list of two.
func (b *rowsForm[R]) yesOrNo(id, name string, at func(*R) *bool) {
	f := b.add(id, name, func(row R) string { return yesNo(*at(&row)) })
	f.Choices = []Choice{{"no", "no"}, {"yes", "yes"}}
	b.setting(f, func(text string) (func(*R), error) { return func(row *R) { *at(row) = text == "yes" }, nil })
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

package text

import (
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
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
	ID, Name, Help string
	// Text is what stands in the field, or the value of the choice; blank where several rows differ.
	Text string
	// Blank says what holds while nothing stands in the field.
	Blank string
	// Choices make it a list of which one is taken; typed text otherwise.
	Choices []fields.Option
	// Long gives it several lines, and Several tells that it is about rows that differ in it.
	Long, Several bool
	// Stacked puts it under its label: what stands in it is mostly wider than half a card.
	Stacked bool

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
func FormOf(a *assess.Assessment, selection []plan.Ref, units words.Units) Form {
	if len(selection) == 0 {
		return formFor(a, planForm, fields.Settings, []plan.Key{""}, units, "Plan")
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
	layout, found := forms[table]
	if !found || len(keys) == 0 {
		return Form{Subject: "none"}
	}
	_, many := words.Rows(table)
	name := words.Counted(len(keys), many, many)
	if len(keys) == 1 {
		name = words.Row(a.Plan, plan.Ref{Table: table, Key: keys[0]}, units)
	}
	return formFor(a, layout, table, keys, units, name)
}

// TemplateForm is the form of what new plans begin with: all that decides figures, and whom the crew can ring.
func TemplateForm(a *assess.Assessment, units words.Units) Form {
	form := formFor(a, templateForm, fields.Settings, []plan.Key{""}, units, "New plans")
	form.Subject = "template"
	return form
}

// builder builds the form of some rows of one table.
type builder struct {
	state fields.State
	plan  *plan.Plan
	keys  []plan.Key
	rows  []any
	name  string
}

func formFor(a *assess.Assessment, layout []layoutGroup, table string, keys []plan.Key, units words.Units, name string) Form {
	b := &builder{state: fields.On(a.Plan, a.Reckoner(), units), plan: a.Plan, name: name}
	form := Form{Subject: table}
	for _, key := range keys {
		if row, found := fields.All(table)[0].Row(a.Plan, key); found {
			b.keys, b.rows = append(b.keys, key), append(b.rows, row)
		}
		if key != "" {
			form.Subject += " " + string(key)
		}
	}
	if table == fields.Settings {
		form.Subject = "plan"
	}
	for _, group := range layout {
		if shown := b.group(table, group); len(shown.Fields) > 0 {
			form.Groups = append(form.Groups, shown)
		}
	}
	return form
}

// group shows the fields of a group that mean something for all rows.
func (b *builder) group(table string, of layoutGroup) FormGroup {
	group, used := FormGroup{Name: of.name}, false
	for _, id := range strings.Fields(of.ids) {
		field := fields.Of(table, id)
		if len(b.rows) > 1 && field.Alone || slices.ContainsFunc(b.rows, func(row any) bool { return !field.Applies(b.state, row) }) {
			continue
		}
		shown := b.field(table, field)
		if field.Kind == fields.Choice && len(shown.Choices) < 2 {
			continue // there is nothing to choose
		}
		used = used || shown.Text != "" || shown.Several
		group.Fields = append(group.Fields, shown)
	}
	group.Folded = of.folds == always || of.folds == whileUnused && !used
	return group
}

// field shows one field of the rows.
func (b *builder) field(table string, of *fields.Field) FormField {
	f := FormField{
		ID: of.ID, Name: of.Name, Help: of.Help, Long: of.Kind == fields.Note, Stacked: stacked(table, of.ID), step: b.name + ": " + lowerFirst(of.Name),
		Text: of.Value(b.state, b.rows[0]), Blank: of.Blank(b.state, b.rows[0]), Choices: of.Options(b.state, b.rows[0]),
	}
	for _, row := range b.rows[1:] {
		if of.Blank(b.state, row) != f.Blank {
			f.Blank = "by each one's own"
		}
	}
	for _, row := range b.rows[1:] {
		if of.Value(b.state, row) != f.Text {
			f.Text, f.Several, f.Blank = "", true, severalValues
			break
		}
	}
	keys, units, p := b.keys, b.state.Units, b.plan
	f.edit = func(text string) (func(*plan.Edit) error, error) {
		each := func(e *plan.Edit) error {
			for _, key := range keys {
				if err := of.Put(e, units, key, text); err != nil {
					return err
				}
			}
			return nil
		}
		// What cannot be read is told before a step is begun.
		return each, each(plan.NewEdit(p, plan.NewIDSource(1, 1)))
	}
	return f
}

// lowerFirst makes a field's name go on a sentence; names that begin with several capitals or figures stay.
func lowerFirst(name string) string {
	if len(name) > 1 && strings.ToLower(name[1:2]) == name[1:2] {
		return strings.ToLower(name[:1]) + name[1:]
	}
	return name
}

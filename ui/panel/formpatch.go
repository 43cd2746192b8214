package panel

import (
	"stageloom/model/assess"
	"stageloom/model/plan"
)

// inputForm is the form of inputs; where they are plugged in is said in the table of the patch, act by act.
func inputForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Inputs, keys, units, "inputs", func(r plan.Input) string { return r.Name })
	b.group("")
	if b.one() {
		b.whole("number", "Number", "1", 1, 9999, func(r *plan.Input) *int { return &r.Number })
		b.needed("name", "Name", func(r *plan.Input) *string { return &r.Name })
	}
	b.words("source", "Source", func(r *plan.Input) *string { return &r.Source }).blank("condenser, radio …")
	b.choice("use", "Use", []Choice{{"", "not stated"}, {"mic", "mic"}, {"DI", "DI"}, {"line", "line"}}, func(r *plan.Input) *string { return &r.Use })
	b.yesOrNo("phantom", "Wants 48 V", func(r *plan.Input) *bool { return &r.Phantom })
	b.words("stand", "Stand", func(r *plan.Input) *string { return &r.Stand }).blank("tall boom, clip …")
	b.words("riser", "Riser", func(r *plan.Input) *string { return &r.Riser })
	b.note("note", "Note", func(r *plan.Input) *string { return &r.Note })
	return b.form
}

// outputForm is the form of outputs.
func outputForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Outputs, keys, units, "outputs", func(r plan.Output) string { return r.Name })
	b.group("")
	if b.one() {
		b.whole("number", "Number", "1", 1, 9999, func(r *plan.Output) *int { return &r.Number })
		b.needed("name", "Name", func(r *plan.Output) *string { return &r.Name })
	}
	b.note("note", "Note", func(r *plan.Output) *string { return &r.Note })
	return b.form
}

// actForm is the form of acts.
func actForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Acts, keys, units, "acts", func(r plan.Act) string { return r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.Act) *string { return &r.Name })
	}
	b.words("stage", "Stage", func(r *plan.Act) *string { return &r.Stage })
	b.words("start", "From", func(r *plan.Act) *string { return &r.Start }).blank("20:15")
	b.words("end", "Until", func(r *plan.Act) *string { return &r.End }).blank("21:45")
	b.note("note", "Note", func(r *plan.Act) *string { return &r.Note })
	return b.form
}

// houseLineForm is the form of lines that the venue owns.
func houseLineForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.HouseLines, keys, units, "house lines", func(r plan.HouseLine) string { return "house line " + r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.HouseLine) *string { return &r.Name })
	}
	var kinds []Choice
	for kind := range a.Plan.CableKinds.All() {
		kinds = append(kinds, Choice{string(kind.ID), kind.Name})
	}
	b.chosen("kind", "Kind", kinds, func(r plan.HouseLine) string { return string(r.Kind) }, func(e *plan.Edit, r plan.HouseLine, kind string) error {
		return plan.Update(e, r.Key(), func(r *plan.HouseLine) { r.Kind = plan.CableKindID(kind) })
	})
	b.figure("length", "Length", units.length(0.1, 10000), func(r *plan.HouseLine) *float64 { return &r.Length })
	b.words("from_panel", "From panel", func(r *plan.HouseLine) *string { return &r.FromPanel })
	b.words("to_panel", "To panel", func(r *plan.HouseLine) *string { return &r.ToPanel })
	b.choice("condition", "It is", conditionChoices, func(r *plan.HouseLine) *string { return &r.Condition })
	b.words("reason", "Because", func(r *plan.HouseLine) *string { return &r.Reason })
	b.words("found_at", "Found at", func(r *plan.HouseLine) *string { return &r.FoundAt })
	b.dated("found_on", "Found on", func(r *plan.HouseLine) *string { return &r.FoundOn })
	b.optional("measured", "Measured loss", decibels(0, 200), func(plan.HouseLine) string { return "as its kind" }, func(r *plan.HouseLine) *plan.Optional { return &r.Measured })
	b.note("note", "Note", func(r *plan.HouseLine) *string { return &r.Note })
	return b.form
}

// caseForm is the form of cases in which reels live.
func caseForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Cases, keys, units, "cases", func(r plan.Case) string { return r.Name })
	b.group("")
	if b.one() {
		b.needed("name", "Name", func(r *plan.Case) *string { return &r.Name })
	}
	b.note("note", "Note", func(r *plan.Case) *string { return &r.Note })
	return b.form
}

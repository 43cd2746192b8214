package panel

import (
	"cmp"
	"errors"
	"slices"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/standards"
)

// linkForm is the form of one link or of several.
func linkForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Links, keys, units, "links", func(r plan.Link) string { return r.Name })
	l := &linkFields{b, a}
	l.what()
	l.run()
	l.reckoning()
	l.spare()
	l.pair()
	l.ends()
	l.laying()
	return b.form
}

// linkFields adds the groups of a link's form.
type linkFields struct {
	*rowsForm[plan.Link]
	a *assess.Assessment
}

func (l *linkFields) what() {
	l.group("")
	if l.one() {
		l.needed("name", "Name", func(r *plan.Link) *string { return &r.Name })
		if choices := TransportChoices(l.a.Plan, l.rows[0]); len(choices) > 1 {
			l.chosen("transport", "Transport", choices, func(r plan.Link) string { return string(r.Transport) }, func(e *plan.Edit, r plan.Link, id string) error {
				return plan.Update(e, r.Key(), func(r *plan.Link) { r.Transport = plan.TransportID(id) })
			})
		}
	}
	l.chosen("fill", "Wanted kind", l.kindChoices(), func(r plan.Link) string { return string(r.FillKind) }, func(e *plan.Edit, r plan.Link, kind string) error {
		return wantKind(e, r.ID, plan.CableKindID(kind))
	})
}

// kindChoices are the kinds of cable that fit the transport of every row.
func (l *linkFields) kindChoices() []Choice {
	choices := []Choice{{"", "none: what is missing stays uncabled"}}
	for _, kind := range catalogue.CableKindsFor(l.a.Plan) {
		fits := true
		for _, row := range l.rows {
			fits = fits && (budget.Fits(kind, l.a.Reckoner().Transport(row.Transport).Media) || row.FillKind == kind.ID)
		}
		if fits {
			choices = append(choices, Choice{string(kind.ID), kind.Name})
		}
	}
	return choices
}

// wantKind makes a kind the one wanted for what a link misses; a kind of the catalogue comes into the plan with it.
func wantKind(e *plan.Edit, link plan.LinkID, kind plan.CableKindID) error {
	if kind != "" {
		if err := catalogue.UseCable(e, kind); err != nil && !errors.Is(err, catalogue.ErrUnknown) {
			return err
		}
	}
	return plan.Update(e, plan.Key(link), func(r *plan.Link) { r.FillKind = kind })
}

func (l *linkFields) run() {
	l.group("Run")
	l.typed()
	l.fromNought("rise_from", "Rise at near end", l.units.length(0, 500), func(r *plan.Link) *float64 { return &r.RiseFrom })
	l.fromNought("rise_to", "Rise at far end", l.units.length(0, 500), func(r *plan.Link) *float64 { return &r.RiseTo })
	l.optional("slack", "Slack along the way", share(), func(r plan.Link) string { return slackBlank(l.a.Reckoner(), r) }, func(r *plan.Link) *plan.Optional { return &r.SlackPercent })
	l.optional("slack_end", "Slack at each end", l.units.length(0, 100), func(r plan.Link) string {
		r.SlackEnd = plan.Optional{}
		return l.a.Reckoner().Of(r).Measured.EndsWhy(l.units.Metres)
	}, func(r *plan.Link) *plan.Optional { return &r.SlackEnd })
}

// typed adds the length of the way as somebody gave it. A doubtful one is put beyond doubt by typing it again without that
// word.
func (l *linkFields) typed() {
	f := l.add("typed", "Way as typed", func(r plan.Link) string { return TypedText(r, l.units) })
	l.setting(f, func(text string) (func(*plan.Link), error) {
		var typed plan.Link
		err := SetTyped(&typed, text, l.units)
		return func(r *plan.Link) { r.TypedWay, r.TypedBy, r.Doubtful = typed.TypedWay, typed.TypedBy, typed.Doubtful }, err
	})
	if l.one() {
		r := l.rows[0]
		r.TypedWay = 0
		f.blank(measuredBlank(l.units.Shown(l.a.Reckoner().Of(r)), l.units))
	}
}

// end names one end of the link, or of several.
func (l *linkFields) end(far bool) string {
	switch {
	case !l.one() && far:
		return "the far end"
	case !l.one():
		return "the near end"
	case far:
		return deviceName(l.a.Plan, l.rows[0].To)
	}
	return deviceName(l.a.Plan, l.rows[0].From)
}

func (l *linkFields) reckoning() {
	l.group("Reckoning")
	if l.graded() {
		l.temperatureAndMargin()
	}
	l.rule()
	l.whole("joins", "Most joins", "any number", 1, 31, func(r *plan.Link) *int { return &r.MaxJoins })
	l.whole("priority", "Priority", "0: as any other", 0, 9, func(r *plan.Link) *int { return &r.Priority })
}

// graded tells whether any of the rows carries a grade; what decides none is no field.
func (l *linkFields) graded() bool {
	return slices.ContainsFunc(l.rows, func(r plan.Link) bool { return l.a.Reckoner().Transport(r.Transport).Graded() })
}

func (l *linkFields) temperatureAndMargin() {
	temperature := l.units.temperature(-20, 60)
	l.optional("temperature", "Cable temperature", temperature, func(r plan.Link) string {
		r.Temperature = plan.Optional{}
		b := l.a.Reckoner().Of(r)
		if b.TemperatureBy == budget.ByPlan {
			return temperature.print(b.TemperatureC) + ", the plan's"
		}
		return temperature.print(b.TemperatureC) + ", by place"
	}, func(r *plan.Link) *plan.Optional { return &r.Temperature })
	l.optional("margin", "Wanted margin", decibels(1, 20), func(r plan.Link) string {
		r.WantedMargin = plan.Optional{}
		b := l.a.Reckoner().Of(r)
		if b.WantedBy == budget.ByPlan {
			return quantity.PrintDecibels(b.WantedDB, 1) + ", the plan's"
		}
		return quantity.PrintDecibels(b.WantedDB, 1) + ", by default"
	}, func(r *plan.Link) *plan.Optional { return &r.WantedMargin })
}

// rule adds the limit rule where all rows are of one graded transport.
func (l *linkFields) rule() {
	transport := l.rows[0].Transport
	for _, row := range l.rows {
		if row.Transport != transport || !l.a.Reckoner().Transport(transport).Graded() {
			return
		}
	}
	l.chosen("rule", "Limit rule", RuleChoices(l.a.Plan, transport), func(r plan.Link) string { return string(r.Rule) }, func(e *plan.Edit, r plan.Link, rule string) error {
		return plan.Update(e, r.Key(), func(r *plan.Link) { r.Rule = plan.RuleID(rule) })
	})
}

// spare adds what a laid spare stands in for, which is of one link alone.
func (l *linkFields) spare() {
	if !l.one() || !l.rows[0].IsSpare() {
		return
	}
	l.group("Laid spare")
	l.chosen("stands_for", "Stands in for", StandInChoices(l.a.Plan, l.rows[0]), func(r plan.Link) string { return string(r.StandsFor) }, func(e *plan.Edit, r plan.Link, link string) error {
		return e.StandIn(r.ID, plan.LinkID(link))
	})
}

// pair adds partner and role, which are of one link alone.
func (l *linkFields) pair() {
	if !l.one() {
		return
	}
	l.group("Main and backup")
	l.chosen("partner", "Partner", PartnerChoices(l.a.Plan, l.rows[0]), func(r plan.Link) string { return string(r.Partner) }, func(e *plan.Edit, r plan.Link, partner string) error {
		return Paired(e, r.ID, plan.LinkID(partner), cmp.Or(r.Role, "main"))
	})
	if l.rows[0].Partner != "" {
		l.chosen("role", "This one is", RoleChoices(), func(r plan.Link) string { return r.Role }, func(e *plan.Edit, r plan.Link, role string) error {
			return Paired(e, r.ID, r.Partner, role)
		})
	}
	l.foldUnless(func(r plan.Link) bool { return r.Partner != "" })
}

// ends adds what stands in front of the devices.
func (l *linkFields) ends() {
	l.group("Panels in front of the devices")
	leads := append([]Choice{{"", "not stated: the poorest"}}, l.kindChoices()[1:]...)
	for _, end := range []struct {
		id, name string
		hardware func(*plan.Link) *plan.HardwareID
		kind     func(*plan.Link) *plan.CableKindID
		lead     func(*plan.Link) *float64
	}{
		{
			"from", l.end(false), func(r *plan.Link) *plan.HardwareID { return &r.FromPanel },
			func(r *plan.Link) *plan.CableKindID { return &r.FromLeadKind }, func(r *plan.Link) *float64 { return &r.FromLead },
		},
		{
			"to", l.end(true), func(r *plan.Link) *plan.HardwareID { return &r.ToPanel },
			func(r *plan.Link) *plan.CableKindID { return &r.ToLeadKind }, func(r *plan.Link) *float64 { return &r.ToLead },
		},
	} {
		l.chosen(end.id+"_panel", "Panel at "+end.name, hardwareChoices("none"), func(r plan.Link) string { return string(*end.hardware(&r)) },
			func(e *plan.Edit, r plan.Link, hardware string) error {
				return plan.Update(e, r.Key(), func(r *plan.Link) { *end.hardware(r) = plan.HardwareID(hardware) })
			})
		l.fromNought(end.id+"_lead", "Inner lead", l.units.length(0, 100), end.lead)
		l.chosen(end.id+"_lead_kind", "Kind of inner lead", leads, func(r plan.Link) string { return string(*end.kind(&r)) },
			func(e *plan.Edit, r plan.Link, kind string) error {
				if err := catalogue.UseCable(e, plan.CableKindID(kind)); kind != "" && err != nil && !errors.Is(err, catalogue.ErrUnknown) {
					return err
				}
				return plan.Update(e, r.Key(), func(r *plan.Link) { *end.kind(r) = plan.CableKindID(kind) })
			})
	}
	l.foldUnless(func(r plan.Link) bool { return r.FromPanel != "" || r.ToPanel != "" })
}

// hardwareChoices are the connecting hardware that the standards know; the first says what a blank is.
func hardwareChoices(blank string) []Choice {
	choices := []Choice{{"", blank}}
	for _, hardware := range standards.AllHardware() {
		choices = append(choices, Choice{string(hardware.Slug), hardware.Name})
	}
	return choices
}

func (l *linkFields) laying() {
	l.group("Laying")
	looms := []Choice{{"", "none"}}
	for loom := range l.a.Plan.Looms.All() {
		looms = append(looms, Choice{string(loom.ID), loom.Name})
	}
	if len(looms) > 1 {
		l.chosen("loom", "Loom", looms, func(r plan.Link) string { return string(r.Loom) }, func(e *plan.Edit, r plan.Link, loom string) error {
			return plan.Update(e, r.Key(), func(r *plan.Link) { r.Loom = plan.LoomID(loom) })
		})
	}
	l.words("colour", "Tape colour", func(r *plan.Link) *string { return &r.Colour })
	l.whole("phase", "Lay phase", "none", 1, 99, func(r *plan.Link) *int { return &r.LayPhase })
	ends := []Choice{{"", "not stated"}, {"from", "at " + l.end(false)}, {"to", "at " + l.end(true)}}
	l.choice("drum", "Drum end", ends, func(r *plan.Link) *string { return &r.DrumEnd })
	l.fromNought("power", "Power to the far end", plainNumber("W", 0, 100), func(r *plan.Link) *float64 { return &r.PowerW }).blank("none")
	l.note("note", "Note", func(r *plan.Link) *string { return &r.Note })
	l.foldUnless(func(plan.Link) bool { return false })
}

// chosen adds a list whose choice makes an edit of its own.
func (b *rowsForm[R]) chosen(id, name string, choices []Choice, show func(R) string, put func(*plan.Edit, R, string) error) *FormField {
	f := b.add(id, name, show)
	f.Choices = choices
	b.editing(f, func(value string) (func(*plan.Edit, R) error, error) {
		return func(e *plan.Edit, row R) error { return put(e, row, value) }, nil
	})
	return f
}

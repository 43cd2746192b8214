package panel

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// settingsRow makes the settings of a plan a row of a form.
type settingsRow struct{ plan.Settings }

// Key implements plan.Row; the settings are one row.
func (settingsRow) Key() plan.Key { return "" }

// planForm is the form of the plan itself: all that decides its figures, and who and where.
func planForm(a *assess.Assessment, units Units) Form {
	b := &settingsFields{&rowsForm[settingsRow]{units: units, rows: []settingsRow{{a.Plan.Settings}}, names: "Plan"}}
	b.form.Subject = "plan"
	b.group("")
	b.text("name", "Name", func(s *plan.Settings) *string { return &s.Name }, true)
	b.text("site", "Site", func(s *plan.Settings) *string { return &s.Site }, false)
	b.text("revision", "Revision", func(s *plan.Settings) *string { return &s.Revision }, false)
	b.text("date", "Show date", func(s *plan.Settings) *string { return &s.Date }, false).blank("2026-07-03")
	b.temperatures(a)
	b.run()
	b.rules(a.Plan)
	b.contacts(a.Plan)
	b.group("Note, north and sample rate")
	b.text("note", "Note", func(s *plan.Settings) *string { return &s.Note }, false).Long = true
	b.number("north", "North, from the top", plainNumber("°", -360, 360), func(s *plan.Settings) *float64 { return &s.North })
	b.list("rate", "Sample rate", sampleRates(), func(s *plan.Settings) *string { return &s.SampleRate })
	b.foldUnless(func(r settingsRow) bool { return false })
	return b.form
}

// TemplateForm is the form of what new plans begin with: all that decides figures, and whom the crew can ring.
func TemplateForm(a *assess.Assessment, units Units) Form {
	b := &settingsFields{&rowsForm[settingsRow]{units: units, rows: []settingsRow{{a.Plan.Settings}}, names: "New plans"}}
	b.form.Subject = "template"
	b.temperatures(a)
	b.run()
	b.rules(a.Plan)
	b.contacts(a.Plan)
	b.group("Revision, sample rate and paper")
	b.text("revision", "First revision", func(s *plan.Settings) *string { return &s.Revision }, false)
	b.list("rate", "Sample rate", sampleRates(), func(s *plan.Settings) *string { return &s.SampleRate })
	b.list("paper", "Paper", []Choice{{"A4", "A4"}, {"A3", "A3"}, {"Letter", "Letter"}}, func(s *plan.Settings) *string { return &s.PrintPaper })
	return b.form
}

func sampleRates() []Choice {
	return []Choice{{"", "48 kHz unless told"}, {"44.1", "44.1 kHz"}, {"48", "48 kHz"}, {"88.2", "88.2 kHz"}, {"96", "96 kHz"}}
}

// settingsFields adds fields that change the settings.
type settingsFields struct{ *rowsForm[settingsRow] }

// put makes a field change the settings by what a reading of its text gives.
func (b *settingsFields) put(f *FormField, read func(text string) (func(*plan.Settings), error)) {
	f.edit = func(text string) (func(*plan.Edit) error, error) {
		with, err := read(text)
		return func(e *plan.Edit) error {
			settings := e.Now().Settings
			with(&settings)
			e.SetSettings(settings)
			return nil
		}, err
	}
}

func (b *settingsFields) text(id, name string, at func(*plan.Settings) *string, needed bool) *FormField {
	f := b.add(id, name, func(r settingsRow) string { return *at(&r.Settings) })
	b.put(f, func(text string) (func(*plan.Settings), error) {
		if needed && text == "" {
			return nil, fmt.Errorf("this cannot be left blank")
		}
		return func(s *plan.Settings) { *at(s) = text }, nil
	})
	return f
}

func (b *settingsFields) list(id, name string, choices []Choice, at func(*plan.Settings) *string) {
	b.text(id, name, at, false).Choices = choices
}

func (b *settingsFields) number(id, name string, m measure, at func(*plan.Settings) *float64) {
	f := b.add(id, name, func(r settingsRow) string { return m.print(*at(&r.Settings)) })
	b.put(f, func(text string) (func(*plan.Settings), error) {
		value, err := m.within(text)
		return func(s *plan.Settings) { *at(s) = value }, err
	})
}

func (b *settingsFields) maybe(id, name, blank string, m measure, at func(*plan.Settings) *plan.Optional) {
	f := b.add(id, name, func(r settingsRow) string {
		if figure := *at(&r.Settings); figure.Set {
			return m.print(figure.Value)
		}
		return ""
	})
	f.blank(blank)
	b.put(f, func(text string) (func(*plan.Settings), error) {
		if text == "" {
			return func(s *plan.Settings) { *at(s) = plan.Optional{} }, nil
		}
		value, err := m.within(text)
		return func(s *plan.Settings) { *at(s) = plan.Some(value) }, err
	})
}

// temperatures adds where things lie, how warm cable gets, and which margin is wanted.
func (b *settingsFields) temperatures(a *assess.Assessment) {
	b.group("Temperature and margin")
	b.list("exposure", "Things lie", exposureChoices(""), func(s *plan.Settings) *string { return &s.Exposure })
	b.maybe("temperature", "Cable temperature", "by place", b.units.temperature(-20, 60), func(s *plan.Settings) *plan.Optional { return &s.Temperature })
	sun := b.units.temperature(-20, 60).print(standards.DefaultTemperatureC(standards.Sun, nil))
	b.maybe("air", "Worst air", "sun is "+sun, b.units.temperature(-20, 60), func(s *plan.Settings) *plan.Optional { return &s.Air })
	b.maybe("margin", "Wanted margin", "1.5 or 3 dB", decibels(1, 20), func(s *plan.Settings) *plan.Optional { return &s.WantedMargin })
}

// run adds how the run of a link is reckoned from its way.
func (b *settingsFields) run() {
	b.group("Run")
	b.maybe("slack", "Slack along the way", "0 to 10 % by source", share(), func(s *plan.Settings) *plan.Optional { return &s.SlackPercent })
	b.maybe("slack_end", "Slack at each end", "by what stands there", b.units.length(0, 100), func(s *plan.Settings) *plan.Optional { return &s.SlackEnd })
	b.number("detour", "Straight way times", plainNumber("", 1, 3), func(s *plan.Settings) *float64 { return &s.Detour })
	f := b.add("coupler", "Coupler", func(r settingsRow) string { return r.Coupler })
	f.Choices = hardwareChoices("")[1:]
	b.put(f, func(text string) (func(*plan.Settings), error) {
		return func(s *plan.Settings) { s.Coupler = text }, nil
	})
}

// rules adds the limit rule of each graded transport.
func (b *settingsFields) rules(p *plan.Plan) {
	b.group("Limit rules")
	for _, transport := range standards.Transports() {
		if !transport.Graded() {
			continue
		}
		id := plan.TransportID(transport.Slug)
		own, _ := p.TransportRules.Get(plan.Key(id))
		f := b.add("rule_"+string(id), transport.Name, func(settingsRow) string { return string(own.Rule) })
		f.Choices = []Choice{{"", "its own: " + ruleName(plan.RuleID(transport.Rule))}}
		for _, rule := range standards.LimitRules() {
			f.Choices = append(f.Choices, Choice{string(rule.Slug), rule.Name})
		}
		f.step = "Plan: limit rule for " + transport.Name
		f.edit = func(text string) (func(*plan.Edit) error, error) {
			return func(e *plan.Edit) error {
				if text == "" {
					plan.Drop[plan.TransportRule](e, plan.Key(id))
					return nil
				}
				plan.Put(e, plan.TransportRule{Transport: id, Rule: plan.RuleID(text)})
				return nil
			}, nil
		}
	}
	b.foldUnless(func(settingsRow) bool { return p.TransportRules.Len() > 0 })
}

// contacts adds the people the crew can ring, one a line: name, role, phone.
func (b *settingsFields) contacts(p *plan.Plan) {
	b.group("Contacts")
	var lines []string
	for contact := range p.Contacts.All() {
		line := strings.Join([]string{contact.Name, contact.Role, contact.Phone}, ", ")
		lines = append(lines, strings.TrimRight(line, ", "))
	}
	f := b.add("contacts", "One a line: name, role, phone", func(settingsRow) string { return strings.Join(lines, "\n") })
	f.Long, f.step = true, "Plan: contacts"
	f.edit = readContacts
	b.foldUnless(func(settingsRow) bool { return len(lines) > 0 })
}

// readContacts reads the contacts, one a line; a line keeps the row that stood in its place.
func readContacts(text string) (func(*plan.Edit) error, error) {
	var contacts []plan.Contact
	for n, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		parts := strings.SplitN(line, ",", 3)
		for len(parts) < 3 {
			parts = append(parts, "")
		}
		contact := plan.Contact{Name: strings.TrimSpace(parts[0]), Role: strings.TrimSpace(parts[1]), Phone: strings.TrimSpace(parts[2])}
		if contact.Name == "" {
			return nil, fmt.Errorf("line %d has no name before its first comma", n+1)
		}
		contacts = append(contacts, contact)
	}
	return func(e *plan.Edit) error { e.SetContacts(contacts); return nil }, nil
}

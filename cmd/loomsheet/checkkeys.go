package main

import (
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/revision"
)

// The keys of check --json, as schema/check.json tells them.
type (
	checkKeys struct {
		Version int        `json:"loomsheet"`
		Plans   []planKeys `json:"plans"`
	}
	planKeys struct {
		File   string      `json:"file"`
		Error  string      `json:"error,omitempty"`
		Result *resultKeys `json:"result,omitempty"`
	}
	resultKeys struct {
		Name      string        `json:"name"`
		Revision  string        `json:"revision,omitempty"`
		Standards int           `json:"standards"`
		Cable     number        `json:"cable_m"`
		Missing   number        `json:"missing_m"`
		Joins     int           `json:"joins"`
		Grades    gradesKeys    `json:"grades"`
		TooShort  int           `json:"too_short"`
		Stops     int           `json:"stops"`
		Warns     int           `json:"warns"`
		Notes     int           `json:"notes"`
		Links     []linkKeys    `json:"links"`
		Findings  []findingKeys `json:"findings"`
	}
	gradesKeys struct {
		Ample    int `json:"ample"`
		Enough   int `json:"enough"`
		Tight    int `json:"tight"`
		Over     int `json:"over"`
		ToTest   int `json:"to_be_tested"`
		Faulty   int `json:"faulty"`
		ToLay    int `json:"to_lay"`
		Uncabled int `json:"uncabled"`
		Ungraded int `json:"ungraded"`
	}
	linkKeys struct {
		ID        string    `json:"id"`
		Name      string    `json:"name"`
		Transport string    `json:"transport"`
		From      endKeys   `json:"from"`
		To        endKeys   `json:"to"`
		Way       number    `json:"way_m"`
		Rises     number    `json:"rises_m"`
		Slack     number    `json:"slack_m"`
		Run       number    `json:"run_m"`
		Source    string    `json:"way_source"`
		Doubtful  bool      `json:"way_doubtful,omitempty"`
		Laid      number    `json:"laid_m"`
		Missing   number    `json:"missing_m"`
		Joins     int       `json:"joins"`
		Grade     string    `json:"grade"`
		Standing  string    `json:"standing"`
		Why       string    `json:"why"`
		Loss      *lossKeys `json:"budget,omitempty"`
		Line      *lineKeys `json:"line,omitempty"`
	}
	endKeys struct {
		Device string `json:"device"`
		Port   string `json:"port"`
	}
	lossKeys struct {
		Temperature number `json:"temperature_C"`
		Wanted      number `json:"wanted_margin_dB"`
		Rule        string `json:"rule"`
		Limit       number `json:"limit_dB"`
		Loss        number `json:"loss_dB"`
		Margin      number `json:"margin_dB"`
		Assumed     bool   `json:"assumed"`
	}
	// lineKeys are an electrical line through passive devices.
	lineKeys struct {
		Length number     `json:"length_m"`
		Steps  []stepKeys `json:"steps"`
	}
	stepKeys struct {
		What   string `json:"what"`
		Name   string `json:"name"`
		Length number `json:"length_m"`
		Loss   number `json:"loss_dB"`
	}
	findingKeys struct {
		Rule     string      `json:"rule"`
		Severity string      `json:"severity"`
		Where    []placeKeys `json:"where"`
		What     string      `json:"what"`
		Remedy   string      `json:"remedy"`
	}
	placeKeys struct {
		Table string `json:"table"`
		Key   string `json:"key"`
		Name  string `json:"name"`
	}
)

func checkKeysOf(all []checked) checkKeys {
	keys := checkKeys{Version: keysVersion}
	for _, one := range all {
		if one.err != nil {
			keys.Plans = append(keys.Plans, planKeys{File: one.path, Error: one.err.Error()})
			continue
		}
		keys.Plans = append(keys.Plans, planKeys{File: one.path, Result: one.keys()})
	}
	return keys
}

// keys gives what a plan amounts to for other programs.
func (c checked) keys() *resultKeys {
	settings, t := c.assessment.Plan.Settings, c.assessment.Totals
	keys := &resultKeys{
		Name: settings.Name, Revision: revision.StandingOf(c.assessment.Plan).Mark(), Standards: settings.Standards,
		Cable: number(t.Metres), Missing: number(t.Missing), Joins: t.Joins,
		Grades: gradesKeys{
			t.Count(budget.Ample), t.Count(budget.Enough), t.Count(budget.Tight), t.Count(budget.Over), t.Count(budget.ToTest),
			t.Count(budget.Faulty), t.Count(budget.ToLay), t.Count(budget.Uncabled), t.Ungraded,
		},
		TooShort: t.TooShort, Stops: t.Stops, Warns: t.Warns, Notes: t.Notes,
		Links: []linkKeys{}, Findings: []findingKeys{},
	}
	for b := range c.inOrder() {
		keys.Links = append(keys.Links, c.linkKeys(b))
	}
	for _, finding := range c.assessment.Findings {
		keys.Findings = append(keys.Findings, findingKeysOf(c.assessment.Plan, finding))
	}
	return keys
}

func (c checked) linkKeys(b budget.Budget) linkKeys {
	p := c.assessment.Plan
	link, _ := p.Link(b.Link)
	b = b.Printed(1) // as its pages and totals say
	keys := linkKeys{
		ID: string(b.Link), Name: b.Name, Transport: string(b.Transport),
		From: endKeysOf(p, link.From, link.FromPort), To: endKeysOf(p, link.To, link.ToPort),
		Way: number(b.Way), Rises: number(b.Rises), Slack: number(b.Slack), Run: number(b.Run),
		Source: b.Measured.Source.Key(), Doubtful: b.Measured.Doubtful,
		Laid: number(b.Laid), Missing: number(b.Missing), Joins: b.Joins,
		Grade: string(b.Grade), Standing: string(b.Standing()), Why: b.Why(), Line: lineKeysOf(b),
	}
	if b.HasMargin() {
		keys.Loss = &lossKeys{
			Temperature: number(b.TemperatureC), Wanted: number(b.WantedDB), Rule: string(b.Rule), Limit: number(b.LimitDB),
			Loss: number(b.LossDB), Margin: number(b.MarginDB), Assumed: b.Assumed(),
		}
	}
	return keys
}

// lineKeysOf tells of the line that a link is part of; nil where the link is the line.
func lineKeysOf(b budget.Budget) *lineKeys {
	if b.Whole == nil || !b.HasMargin() {
		return nil
	}
	keys := &lineKeys{Length: number(b.LineLength())}
	for _, step := range b.Whole.Steps {
		what := "link"
		switch {
		case step.Guest:
			what = "tail"
		case step.Passive():
			what = "passive device"
		}
		keys.Steps = append(keys.Steps, stepKeys{what, step.Name, number(step.Length), number(step.LossDB)})
	}
	return keys
}

func endKeysOf(p *plan.Plan, id plan.DeviceID, port string) endKeys {
	device, _ := p.Device(id)
	return endKeys{device.Name, port}
}

func findingKeysOf(p *plan.Plan, finding checks.Finding) findingKeys {
	keys := findingKeys{Rule: finding.Rule, Severity: finding.Severity.String(), Where: []placeKeys{}, What: finding.What, Remedy: finding.Remedy}
	for _, place := range finding.Where {
		keys.Where = append(keys.Where, placeKeys{place.Table, string(place.Key), describe(p, place)})
	}
	return keys
}

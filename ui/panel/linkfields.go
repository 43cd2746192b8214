package panel

import (
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// Field is one line of a form: what it is called, what stands in it, what holds where it is blank, and why what was
// typed cannot stand.
type Field struct {
	Name, Text, Blank, Fault string
}

// The fields of a link's form, in their order.
const (
	FieldName = iota
	FieldTyped
	FieldRiseFrom
	FieldRiseTo
	FieldSlackPercent
	FieldSlackEnd
	FieldTemperature
	FieldMargin
	FieldColour
	FieldNote
	FieldFromLead
	FieldToLead
)

// LinkFields are a link's own figures as text; blanks are the plan's figures, which Blank shows.
func LinkFields(p *plan.Plan, link plan.Link, units Units) []Field {
	s := p.Settings
	temperature := "by place"
	if s.Temperature.Set {
		temperature = quantity.PrintTemperature(s.Temperature.Value, units.Temperature, 0)
	}
	margin := "1.5 or 3 dB by temperature"
	if s.WantedMargin.Set {
		margin = quantity.PrintDecibels(s.WantedMargin.Value, 1)
	}
	optional := func(o plan.Optional, print func(float64) string) string {
		if !o.Set {
			return ""
		}
		return print(o.Value)
	}
	rise := func(metres float64) string {
		if metres == 0 {
			return ""
		}
		return units.Metres(metres)
	}
	blank := link
	blank.TypedWay, blank.SlackPercent, blank.SlackEnd = 0, plan.Optional{}, plan.Optional{}
	b := units.Shown(budget.Of(p, blank))
	return []Field{
		{Name: "Name", Text: link.Name},
		{Name: "Way as typed", Text: TypedText(link, units), Blank: measuredBlank(b, units)},
		{Name: "Rise at " + deviceName(p, link.From), Text: rise(link.RiseFrom), Blank: units.Metres(0)},
		{Name: "Rise at " + deviceName(p, link.To), Text: rise(link.RiseTo), Blank: units.Metres(0)},
		{Name: "Slack along the way", Text: optional(link.SlackPercent, percent), Blank: slackBlank(budget.NewReckoner(p), link)},
		{Name: "Slack at each end", Text: optional(link.SlackEnd, units.Metres), Blank: b.Measured.EndsWhy(units.Metres)},
		{Name: "Cable temperature", Text: optional(link.Temperature, func(c float64) string { return quantity.PrintTemperature(c, units.Temperature, 0) }), Blank: temperature},
		{Name: "Wanted margin", Text: optional(link.WantedMargin, func(dB float64) string { return quantity.PrintDecibels(dB, 1) }), Blank: margin},
		{Name: "Tape colour", Text: link.Colour},
		{Name: "Note", Text: link.Note},
		{Name: "Inner lead at " + deviceName(p, link.From), Text: rise(link.FromLead), Blank: "no panel, no inner lead"},
		{Name: "Inner lead at " + deviceName(p, link.To), Text: rise(link.ToLead), Blank: "no panel, no inner lead"},
	}
}

func deviceName(p *plan.Plan, id plan.DeviceID) string {
	device, _ := p.Device(id)
	return device.Name
}

func percent(value float64) string { return strconv.FormatFloat(value, 'f', -1, 64) + " %" }

// WithLinkFields returns the link with what the fields say; a field that was not touched keeps its figure to the last
// digit. Fields whose text cannot be read bear their fault, and ok is false.
func WithLinkFields(p *plan.Plan, link plan.Link, fields []Field, units Units) (_ plan.Link, faulted []Field, ok bool) {
	faulted, ok = append([]Field(nil), fields...), true
	shown := LinkFields(p, link, units)
	read := func(field int, old plan.Optional, parse func(string) (float64, error)) plan.Optional {
		text := strings.TrimSpace(fields[field].Text)
		if text == shown[field].Text {
			return old
		}
		if text == "" {
			return plan.Optional{}
		}
		value, err := parse(text)
		if err != nil {
			faulted[field].Fault, ok = err.Error(), false
			return plan.Optional{}
		}
		return plan.Some(value)
	}
	length := func(text string) (float64, error) { return quantity.ReadLength(text, units.Length) }
	link.Name = strings.TrimSpace(fields[FieldName].Text)
	if link.Name == "" {
		faulted[FieldName].Fault, ok = "a link needs a name", false
	}
	if text := strings.TrimSpace(fields[FieldTyped].Text); text != shown[FieldTyped].Text {
		if err := SetTyped(&link, text, units); err != nil {
			faulted[FieldTyped].Fault, ok = err.Error(), false
		}
	}
	link.RiseFrom = read(FieldRiseFrom, plan.Some(link.RiseFrom), length).Value
	link.RiseTo = read(FieldRiseTo, plan.Some(link.RiseTo), length).Value
	link.FromLead = read(FieldFromLead, plan.Some(link.FromLead), length).Value
	link.ToLead = read(FieldToLead, plan.Some(link.ToLead), length).Value
	link.SlackPercent = read(FieldSlackPercent, link.SlackPercent, readPercent)
	link.SlackEnd = read(FieldSlackEnd, link.SlackEnd, length)
	link.Temperature = read(FieldTemperature, link.Temperature, func(text string) (float64, error) { return quantity.ReadTemperature(text, units.Temperature) })
	link.WantedMargin = read(FieldMargin, link.WantedMargin, quantity.ReadDecibels)
	link.Colour, link.Note = strings.TrimSpace(fields[FieldColour].Text), fields[FieldNote].Text
	return link, faulted, ok
}

func readPercent(text string) (float64, error) {
	number := strings.TrimSpace(strings.TrimSuffix(text, "%"))
	value, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil || value < 0 || value > 100 {
		return 0, fmt.Errorf("%q is no share of 0 to 100 %%; write it as 10 %%", text)
	}
	return value, nil
}

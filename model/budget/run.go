package budget

import (
	"math"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// unnoticed is how far in metres cables may fall short without being called too short: slack swallows it.
const unnoticed = 0.05

// tidy rounds decibels to a billionth, so that a link exactly at its limit is not over by a float's error.
func tidy(decibels float64) float64 { return math.Round(decibels*1e9) / 1e9 }

// end is where a link ends, and what the cable meets there.
type end struct {
	at       geom.Point
	height   float64
	exposure string
	position plan.PositionID
	unplaced bool
	stands   Standing
}

// end gathers the end of a link; blank figures of a device are those of its position, and then the plan's.
func (r *Reckoner) end(id plan.DeviceID) end {
	device, _ := r.plan.Device(id)
	return r.endOf(device)
}

// endOf is end for a device as it would stand.
func (r *Reckoner) endOf(device plan.Device) end {
	e := end{
		at: device.At(), exposure: device.Exposure, position: device.Position, unplaced: device.Unplaced,
		stands: r.standing[device.Kind],
	}
	level := device.Level
	if device.Position != "" && (level == "" || e.exposure == "") {
		position, _ := r.plan.Positions.Get(plan.Key(device.Position))
		if level == "" {
			level = position.Level
		}
		if e.exposure == "" {
			e.exposure = position.Exposure
		}
	}
	e.height = r.height(level)
	if e.exposure == "" {
		e.exposure = r.plan.Settings.Exposure
	}
	return e
}

// height is that of a level in metres; no level is the ground.
func (r *Reckoner) height(id plan.LevelID) float64 {
	if id == "" {
		return 0
	}
	level, _ := r.plan.Levels.Get(plan.Key(id))
	return level.Height
}

// wayLength is the way from end to end through its points, differences of height included.
func (r *Reckoner) wayLength(from, to end, points []plan.LinkPoint) float64 {
	length, at, height := 0.0, from.at, from.height
	for i := range points {
		next, nextHeight := points[i].At(), r.height(points[i].Level)
		length += hop(at, height, next, nextHeight)
		at, height = next, nextHeight
	}
	return length + hop(at, height, to.at, to.height)
}

func hop(a geom.Point, heightA float64, b geom.Point, heightB float64) float64 {
	flat := a.Distance(b)
	if heightA == heightB {
		return flat
	}
	return math.Hypot(flat, heightB-heightA)
}

// missing is what cables of this length do not reach of a run.
func missing(run, laid float64) float64 {
	if short := geom.RoundMM(run - laid); short >= unnoticed {
		return short
	}
	return 0
}

// settle decides temperature, wanted margin and limit: the link's own figure, else the plan's, else the default.
func (r *Reckoner) settle(b *Budget, link *plan.Link, t *transport, from, to end) {
	if !b.Graded {
		return
	}
	b.SiteTemperatureC = max(r.site[from.exposure], r.site[to.exposure])
	b.TemperatureC, b.TemperatureBy = b.SiteTemperatureC, BySite
	switch {
	case link.Temperature.Set:
		b.TemperatureC, b.TemperatureBy = link.Temperature.Value, ByLink
	case r.plan.Settings.Temperature.Set:
		b.TemperatureC, b.TemperatureBy = r.plan.Settings.Temperature.Value, ByPlan
	}
	switch {
	case link.WantedMargin.Set:
		b.WantedDB, b.WantedBy = link.WantedMargin.Value, ByLink
	case r.plan.Settings.WantedMargin.Set:
		b.WantedDB, b.WantedBy = r.plan.Settings.WantedMargin.Value, ByPlan
	default:
		b.WantedDB, b.WantedBy = standards.WantedMarginDB(&b.TemperatureC, b.SiteTemperatureC), ByMargin
	}
	b.WantedDB = max(standards.LeastWantedMarginDB, b.WantedDB)
	b.Rule, b.LimitDB, b.RuleBy = t.rule.id, t.rule.limitDB, t.ruleBy
	if own, known := r.ruleOf(link.Rule, t.row.Media); known {
		b.Rule, b.LimitDB, b.RuleBy = own.id, own.limitDB, ByLink
	}
}

package revision

import (
	"fmt"

	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// settings are the plan's own figures that decide a grade or a length.
func (d *difference) settings() []Change {
	var l list
	was, is := d.before.Plan.Settings, d.after.Plan.Settings
	figure := func(name, old, now string) {
		if old != now {
			l.add(plan.Ref{}, name, fmt.Sprintf("%s, was %s", now, old))
		}
	}
	figure("Name of the plan", orNone(was.Name), orNone(is.Name))
	figure("Site", orNone(was.Site), orNone(is.Site))
	figure("Show date", orNone(was.Date), orNone(is.Date))
	figure("Sample rate", fmt.Sprintf("%d Hz", was.SampleRateHz()), fmt.Sprintf("%d Hz", is.SampleRateHz()))
	figure("North", fmt.Sprintf("%.4g° from the top", was.North), fmt.Sprintf("%.4g° from the top", is.North))
	figure("Standards", fmt.Sprintf("edition %d", was.Standards), fmt.Sprintf("edition %d", is.Standards))
	if was.Note != is.Note {
		l.add(plan.Ref{}, "Note on the plan", "changed")
	}
	figure("Ground", exposures[was.Exposure], exposures[is.Exposure])
	figure("Cable temperature", optional(was.Temperature, "°C"), optional(is.Temperature, "°C"))
	figure("Worst air temperature", optional(was.Air, "°C"), optional(is.Air, "°C"))
	figure("Wanted margin", optional(was.WantedMargin, "dB"), optional(is.WantedMargin, "dB"))
	figure("Slack", d.slack(was), d.slack(is))
	figure("Straight ways", fmt.Sprintf("× %.4g", was.Detour), fmt.Sprintf("× %.4g", is.Detour))
	figure("Coupler", was.Coupler, is.Coupler)
	return l.changes
}

// exposures are where cables lie unless a place says otherwise.
var exposures = map[string]string{"indoors": "indoors", "shade": "outdoors in the shade", "sun": "outdoors in the sun"}

func optional(figure plan.Optional, unit string) string {
	if !figure.Set {
		return "the default"
	}
	return fmt.Sprintf("%.4g %s", figure.Value, unit)
}

func (d *difference) slack(s plan.Settings) string {
	along, ends := "per cent by where the metres come from", "at the ends by what stands there"
	if s.SlackPercent.Set {
		along = fmt.Sprintf("%.4g %%", s.SlackPercent.Value)
	}
	if s.SlackEnd.Set {
		ends = quantity.PrintLength(s.SlackEnd.Value, d.system, 1) + " at each end"
	}
	return along + " and " + ends
}

package revision

import (
	"fmt"

	"stageloom/model/plan"
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
	figure("Ground", exposures[was.Exposure], exposures[is.Exposure])
	figure("Cable temperature", optional(was.Temperature, "°C"), optional(is.Temperature, "°C"))
	figure("Worst air temperature", optional(was.Air, "°C"), optional(is.Air, "°C"))
	figure("Wanted margin", optional(was.WantedMargin, "dB"), optional(is.WantedMargin, "dB"))
	figure("Slack", slack(was), slack(is))
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

func slack(s plan.Settings) string {
	along, ends := "per cent by where the metres come from", "at the ends by what stands there"
	if s.SlackPercent.Set {
		along = fmt.Sprintf("%.4g %%", s.SlackPercent.Value)
	}
	if s.SlackEnd.Set {
		ends = fmt.Sprintf("%.4g m at each end", s.SlackEnd.Value)
	}
	return along + " and " + ends
}

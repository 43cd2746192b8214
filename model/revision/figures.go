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
	return fmt.Sprintf("%.4g %% and %.4g m at each end", s.SlackPercent, s.SlackEnd)
}

// patch are the inputs, and where each goes: that a row changed, since the patch sheets show how.
func (d *difference) patch() []Change {
	var l list
	rows(
		d.before.Plan.Inputs, d.after.Plan.Inputs,
		func(i plan.Input) { l.add(plan.RefOf(i), inputName(i), "gone") },
		func(i plan.Input) { l.add(plan.RefOf(i), inputName(i), "new") },
		func(old, i plan.Input) { l.add(plan.RefOf(i), inputName(i), "changed in the input list") },
	)
	moved := map[plan.InputID]bool{}
	touch := func(row plan.StagePatch) { moved[row.Input] = true }
	rows(d.before.Plan.StagePatches, d.after.Plan.StagePatches, touch, touch, func(_, row plan.StagePatch) { touch(row) })
	for input := range d.after.Plan.Inputs.All() {
		if moved[input.ID] && d.before.Plan.Inputs.Has(input.Key()) {
			l.add(plan.RefOf(input), inputName(input), "on another socket")
		}
	}
	return l.changes
}

func inputName(i plan.Input) string { return fmt.Sprintf("Input %d %s", i.Number, i.Name) }

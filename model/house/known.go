package house

import "stageloom/model/plan"

// Known is what the house knew of a row when a show took it. What comes back with the same value was not found out by that
// show: where the house has learned otherwise meanwhile, it keeps that.
type Known struct {
	Length    float64       `json:"length_m,omitzero"`
	Nominal   float64       `json:"nominal_m,omitzero"`
	Case      string        `json:"case,omitzero"`
	Condition string        `json:"condition,omitzero"`
	Reason    string        `json:"reason,omitzero"`
	FoundAt   string        `json:"found_at,omitzero"`
	FoundOn   string        `json:"found_on,omitzero"`
	Measured  plan.Optional `json:"measured_loss_dB,omitzero"`
	State     string        `json:"state,omitzero"`
	StateOn   string        `json:"state_since,omitzero"`
	Note      string        `json:"note,omitzero"`
}

func knownOf(back plan.GivenBack) Known {
	if back.Condition == plan.Good {
		back.Condition = ""
	}
	return Known{
		back.Length, back.Nominal, back.Case, back.Condition, back.Reason, back.FoundAt, back.FoundOn, back.Measured,
		back.State, back.StateOn, back.Note,
	}
}

// foundOut is what comes back with all that the show did not find out by itself as the house knows it now. Of what was taken
// before that was kept, all counts as found out.
func (lent Known) foundOut(back, now plan.GivenBack) plan.GivenBack {
	if lent == (Known{}) {
		return back
	}
	came := knownOf(back)
	if came.Length == lent.Length {
		back.Length = now.Length
	}
	if came.Nominal == lent.Nominal {
		back.Nominal = now.Nominal
	}
	if came.Case == lent.Case {
		back.Case = now.Case
	}
	if came.Condition == lent.Condition && came.Reason == lent.Reason && came.FoundAt == lent.FoundAt && came.FoundOn == lent.FoundOn {
		back.Condition, back.Reason, back.FoundAt, back.FoundOn = now.Condition, now.Reason, now.FoundAt, now.FoundOn
	}
	if came.Measured == lent.Measured {
		back.Measured = now.Measured
	}
	if came.State == lent.State {
		back.State, back.StateOn = now.State, now.StateOn
	}
	if came.Note == lent.Note {
		back.Note = now.Note
	}
	return back
}

// knowLent keeps what the house knows of what a show has whose rows say the same, so that what it finds out later is told apart.
func (s *Stock) knowLent(p *plan.Plan, show string) {
	other := map[string]bool{}
	for row := range p.Reels.All() {
		was, found := s.Plan.Reels.Get(plan.Key(row.HouseReel))
		if row.Taking != "" && (!found || len(Differences(s.Plan, was, backOf(p, row))) > 0) {
			other[row.Taking] = true
		}
	}
	for at, t := range s.Takings {
		row, found := s.Plan.Reels.Get(plan.Key(t.Reel))
		if found && t.Plan == show && show != "" && (t.Lent == (Known{}) && t.Quantity > 0 || !other[t.ID]) {
			s.Takings[at].Lent = knownOf(backOf(s.Plan, row))
		}
	}
}

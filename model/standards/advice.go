package standards

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/pairline"
)

const mostWantedMarginDB = 20

// advise reckons everything that stands beside the verdict.
func advise(setting Setting, line pairline.Line) Advice {
	const at = pairline.GradeMHz
	loss, limitDB, tolerance := line.Loss(), setting.Rule.LimitDB(), pairline.DefaultTolerance()
	curve := setting.Rule.CurveRule()
	advice := Advice{
		Curve:        curve,
		MeanMarginDB: pairline.MeanMargin(loss, limitDB),
		SpreadDB:     line.SpreadDB(tolerance),
		RiskFrom20:   line.RiskOver(limitDB, min(pairline.ReferenceTemperatureC, setting.TemperatureC), setting.TemperatureC, tolerance),
		Reflections:  line.Reflections(),
		NEXT:         line.WorseEndNEXT(at),
		ACRN:         line.ACRN(at),
		ACRF:         line.ACRF(at),
		DelayNs:      line.DelayNs(at),
		SkewNs:       line.SkewNs(),
		PhaseDelayNs: line.PhaseDelayNs(at),
		LoopOhm:      line.LoopResistance(),
	}
	advice.WorstMarginDB, advice.WorstMHz = pairline.WorstPoint(loss.At, curve.LimitAt, pairline.LogGrid(pairline.AdditivePoints))
	advice.Risk = pairline.Risk(limitDB-loss.At(at), advice.SpreadDB)
	advice.PowerSumNEXTDB = min(line.PowerSumNEXTDB(at), line.Reversed().PowerSumNEXTDB(at))
	if setting.Transport.PowerOverLink {
		for _, power := range powerTypes {
			feed, err := power.Draw(advice.LoopOhm)
			advice.Power = append(advice.Power, Direct{Type: power, Feed: feed, Err: err})
		}
	}
	return advice
}

// reaches gives the reach of each construction in the chain, once, with as many couplers as the chain has.
func reaches(setting Setting) ([]Reach, error) {
	var found []Reach
	for _, cable := range setting.Chain.Cables {
		if slices.ContainsFunc(found, func(r Reach) bool { return r.Construction == cable.Construction }) {
			continue
		}
		reach, err := ReachOf(cable.Construction, setting.TemperatureC, setting.Coupler, len(setting.Chain.Cables)-1, setting.Rule, setting.WantedMarginDB)
		if err != nil {
			return nil, err
		}
		found = append(found, reach)
	}
	return found, nil
}

// ReachOf is how long a run of one construction can be at a cable temperature in °C with a number of couplers under a
// limit rule, at the limit and with a wanted margin in dB in hand. In closed form; 0 where the couplers alone are over.
func ReachOf(c Construction, temperatureC float64, coupler Hardware, couplers int, rule LimitRule, wantedDB float64) (Reach, error) {
	metre := c.Segment(1, temperatureC)
	if err := metre.Validate(); err != nil {
		return Reach{}, err
	}
	plug, err := c.PlugFigures()
	if err != nil {
		return Reach{}, err
	}
	joint := pairline.Poorer(plug, coupler.Figures).Loss().Times(2 * float64(couplers))
	return Reach{
		Construction: c,
		Couplers:     couplers,
		Length:       pairline.Reach(rule.LimitDB(), joint, metre.PerMetre()),
		Wanted:       pairline.Reach(rule.LimitDB()-wantedDB, joint, metre.PerMetre()),
	}, nil
}

// notes says in sentences what the figures alone do not, what matters most first.
func (r Reckoning) notes() []string {
	var notes []string
	add := func(when bool, format string, values ...any) {
		if when {
			notes = append(notes, fmt.Sprintf(format, values...))
		}
	}
	transport, advice := r.Transport, r.Advice
	for i, cable := range r.Chain.Cables {
		add(transport.ScreenRequired && !cable.Screened, "%s needs screened cable: cable %d is unscreened.", transport.Name, i+1)
	}
	standardDB := pairline.LinkSegmentLimit(pairline.GradeMHz)
	add(r.MarginDB >= 0 && r.LossDB > standardDB, "Inside the rule, but above the standard's %.1f dB.", standardDB)
	length := r.Line.Length()
	add(transport.StatedDistance > 0 && length > transport.StatedDistance,
		"%.4g m is outside the %.4g m that %s states, whatever the loss.", length, transport.StatedDistance, transport.Name)
	pieces := "Short pieces"
	if r.Chain.unlike() {
		pieces += " of unlike cable"
	}
	add(advice.Reflections.Rings, pieces+" ring: ripple %.1f dB at %.3g MHz, return loss %+.1f dB against its limit at %.3g MHz.",
		advice.Reflections.RippleDB, advice.Reflections.RippleMHz, advice.Reflections.ReturnLossMarginDB, advice.Reflections.ReturnLossMHz)
	below := advice.WorstMHz < pairline.GradeMHz // at 100 MHz the note above has said it
	add(below && r.MarginDB >= 0 && advice.WorstMarginDB < 0, "Against the whole curve (%s) the least margin is %.2f dB, at %.3g MHz: advice, not the verdict.",
		advice.Curve.Name, advice.WorstMarginDB, advice.WorstMHz)
	add(transport.DelayLimitNs > 0 && advice.DelayNs > transport.DelayLimitNs,
		"Delay %.0f ns is over the %.0f ns that %s states; a full-duplex link does not fail by it.", advice.DelayNs, transport.DelayLimitNs, transport.Name)
	add(transport.SkewLimitNs > 0 && advice.SkewNs > transport.SkewLimitNs,
		"Skew between pairs may reach %.0f ns; %s allows %.0f ns.", advice.SkewNs, transport.Name, transport.SkewLimitNs)
	add(transport.NEXTLimitDB > 0 && advice.NEXT.WorstDB < transport.NEXTLimitDB,
		"NEXT may be %.1f dB at 100 MHz at worst; %s allows %.1f dB.", tenthsDown(advice.NEXT.WorstDB), transport.Name, transport.NEXTLimitDB)
	add(transport.ACRFLimitDB > 0 && advice.ACRF.WorstDB < transport.ACRFLimitDB,
		"ACR-F may be %.1f dB at 100 MHz at worst; %s allows %.1f dB.", tenthsDown(advice.ACRF.WorstDB), transport.Name, transport.ACRFLimitDB)
	add(!r.TemperatureStated, "No temperature was given: %.4g °C taken, and %.3g dB wanted in hand.", r.TemperatureC, r.WantedMarginDB)
	add(transport.NeverIntoNetworkPort, "%s never goes into a network port.", transport.Name)
	add(transport.PowerOverLink, "%s", PowerCaution)
	return notes
}

// tenthsDown rounds what has to lie above its limit down to tenths, so that it never prints as the limit itself.
func tenthsDown(dB float64) float64 { return math.Floor(dB*10+1e-6) / 10 }

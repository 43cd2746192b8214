package main

import (
	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// The keys of reckon --json, as schema/reckon.json tells them.
type (
	reckonKeys struct {
		Version     int           `json:"loomsheet"`
		Transport   string        `json:"transport"`
		Coupler     string        `json:"coupler"`
		Temperature number        `json:"temperature_C"`
		Stated      bool          `json:"temperature_stated"`
		Rule        ruleKeys      `json:"rule"`
		Wanted      number        `json:"wanted_margin_dB"`
		Chain       *chainKeys    `json:"chain,omitempty"`
		Reach       []reachedKeys `json:"reach,omitempty"`
		Sources     []sourceKeys  `json:"sources"`
	}
	ruleKeys struct {
		Slug   string `json:"slug"`
		Name   string `json:"name"`
		Limit  number `json:"limit_dB"`
		Status string `json:"status"`
	}
	chainKeys struct {
		Pieces []pieceKeys `json:"pieces"`
		Length number      `json:"length_m"`
		Joins  int         `json:"joins"`
		Loss   number      `json:"loss_dB"`
		Limit  number      `json:"limit_dB"`
		Margin number      `json:"margin_dB"`
		Grade  string      `json:"grade"`
		Why    string      `json:"why"`
		Basis  string      `json:"basis"`
		Notes  []string    `json:"notes"`
		Advice adviceKeys  `json:"advice"`
	}
	pieceKeys struct {
		Piece  string  `json:"piece"`
		Name   string  `json:"name"`
		Length *number `json:"length_m,omitempty"`
		Loss   number  `json:"loss_dB"`
		Total  number  `json:"total_dB"`
	}
	adviceKeys struct {
		Worst      pointKeys     `json:"worst_point"`
		Mean       marginKeys    `json:"mean_margin"`
		Risk       riskKeys      `json:"risk"`
		Ripple     rippleKeys    `json:"ripple"`
		ReturnLoss pointKeys     `json:"return_loss"`
		NEXT       crosstalkKeys `json:"next"`
		PowerSum   powerSumKeys  `json:"next_power_sum"`
		ACRN       crosstalkKeys `json:"acr_n"`
		ACRF       crosstalkKeys `json:"acr_f"`
		Delay      delayKeys     `json:"delay"`
		Skew       skewKeys      `json:"skew"`
		Loop       loopKeys      `json:"loop_resistance"`
		Power      []powerKeys   `json:"power"`
	}
	pointKeys struct {
		Margin    number `json:"margin_dB"`
		Frequency number `json:"frequency_MHz"`
		Basis     string `json:"basis"`
	}
	marginKeys struct {
		Margin number `json:"margin_dB"`
		Basis  string `json:"basis"`
	}
	riskKeys struct {
		Share       number `json:"share"`
		ShareFrom20 number `json:"from_20_C_share"`
		Spread      number `json:"spread_dB"`
		Basis       string `json:"basis"`
	}
	rippleKeys struct {
		Ripple    number `json:"ripple_dB"`
		Frequency number `json:"frequency_MHz"`
		Rings     bool   `json:"rings"`
		Basis     string `json:"basis"`
	}
	crosstalkKeys struct {
		Likely number `json:"likely_dB"`
		Worst  number `json:"worst_dB"`
		Basis  string `json:"basis"`
	}
	powerSumKeys struct {
		Likely number `json:"likely_dB"`
		Basis  string `json:"basis"`
	}
	delayKeys struct {
		Delay    number `json:"delay_ns"`
		Modelled number `json:"modelled_ns"`
		Basis    string `json:"basis"`
	}
	skewKeys struct {
		Skew  number `json:"skew_ns"`
		Basis string `json:"basis"`
	}
	loopKeys struct {
		Resistance number `json:"resistance_ohm"`
		Basis      string `json:"basis"`
	}
	powerKeys struct {
		Type    string  `json:"type"`
		Works   bool    `json:"works"`
		Refused string  `json:"refused,omitempty"`
		Power   *number `json:"power_W,omitempty"`
		Voltage *number `json:"voltage_V,omitempty"`
		Current *number `json:"current_A,omitempty"`
		Basis   string  `json:"basis"`
	}
	reachedKeys struct {
		Cable   string      `json:"cable"`
		ByJoins []joinsKeys `json:"by_joins"`
	}
	joinsKeys struct {
		Joins  int    `json:"joins"`
		Reach  number `json:"reach_m"`
		Wanted number `json:"with_wanted_margin_m"`
	}
	sourceKeys struct {
		What   string `json:"what"`
		Status string `json:"status"`
		Source string `json:"source"`
	}
)

// settingKeys are the keys that a reckoned chain and a bare reach share.
func settingKeys(setting standards.Setting, reaches []kindReach, sources []source) reckonKeys {
	rule := setting.Rule
	keys := reckonKeys{
		Version: keysVersion, Transport: string(setting.Transport.Slug), Coupler: string(setting.Coupler.Slug),
		Temperature: number(setting.TemperatureC), Stated: setting.TemperatureStated,
		Rule:   ruleKeys{string(rule.Slug), rule.Name, number(rule.LimitDB()), status(rule.Status)},
		Wanted: number(setting.WantedMarginDB),
	}
	for _, kind := range reaches {
		reached := reachedKeys{Cable: kind.cable.Label()}
		for _, reach := range kind.byJoins {
			reached.ByJoins = append(reached.ByJoins, joinsKeys{reach.Couplers, number(reach.Length), number(reach.Wanted)})
		}
		keys.Reach = append(keys.Reach, reached)
	}
	for _, s := range sources {
		keys.Sources = append(keys.Sources, sourceKeys{s.what, string(s.Status), s.Source})
	}
	return keys
}

// keys gives the reckoning for other programs.
func (r reckonResult) keys() reckonKeys {
	keys := settingKeys(r.Setting, r.reaches, r.sources())
	chain := &chainKeys{
		Length: number(r.Line.Length()), Joins: r.joins(),
		Loss: number(r.LossDB), Limit: number(r.LimitDB), Margin: number(r.MarginDB),
		Grade: string(r.Grade), Why: r.budget().Why(), Basis: r.lossBasis(), Notes: []string{}, Advice: r.adviceKeys(),
	}
	for _, p := range r.pieces() {
		piece := pieceKeys{Piece: "coupler", Name: p.name, Loss: number(p.lossDB), Total: number(p.totalDB)}
		if !p.coupler {
			piece.Piece, piece.Length = "cable", some(p.length)
		}
		chain.Pieces = append(chain.Pieces, piece)
	}
	for _, note := range r.Notes {
		chain.Notes = append(chain.Notes, trueMinus(note))
	}
	keys.Chain = chain
	return keys
}

func (r reckonResult) adviceKeys() adviceKeys {
	a := r.Advice
	crosstalk := func(c pairline.Crosstalk, basis string) crosstalkKeys {
		return crosstalkKeys{number(c.LikelyDB), number(c.WorstDB), basis}
	}
	keys := adviceKeys{
		Worst:      pointKeys{number(a.WorstMarginDB), number(a.WorstMHz), basisWorst(a.Curve)},
		Mean:       marginKeys{number(a.MeanMarginDB), basisComputed},
		Risk:       riskKeys{number(a.Risk), number(a.RiskFrom20), number(a.SpreadDB), basisRisk},
		Ripple:     rippleKeys{number(a.Reflections.RippleDB), number(a.Reflections.RippleMHz), a.Reflections.Rings, basisComputed},
		ReturnLoss: pointKeys{number(a.Reflections.ReturnLossMarginDB), number(a.Reflections.ReturnLossMHz), "computed; limit: published"},
		NEXT:       crosstalk(a.NEXT, basisLimits),
		PowerSum:   powerSumKeys{number(a.PowerSumNEXTDB), basisLimits},
		ACRN:       crosstalk(a.ACRN, basisLimits),
		ACRF:       crosstalk(a.ACRF, basisLimits),
		Delay:      delayKeys{number(a.DelayNs), number(a.PhaseDelayNs), basisMaximum},
		Skew:       skewKeys{number(a.SkewNs), basisMaximum},
		Loop:       loopKeys{number(a.LoopOhm), r.basisLoop()},
		Power:      []powerKeys{},
	}
	for _, direct := range a.Power {
		keys.Power = append(keys.Power, powerKeysOf(direct))
	}
	return keys
}

func powerKeysOf(direct standards.Direct) powerKeys {
	keys := powerKeys{Type: string(direct.Type.Slug), Works: direct.Err == nil, Basis: basisPower}
	if direct.Err != nil {
		keys.Refused = direct.Err.Error()
		return keys
	}
	keys.Power, keys.Voltage, keys.Current = some(direct.Feed.DevicePower), some(direct.Feed.DeviceVoltage), some(direct.Feed.Current)
	return keys
}

func some(value float64) *number {
	n := number(value)
	return &n
}

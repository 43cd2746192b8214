package standards

import (
	"math"
	"slices"

	"stageloom/model/pairline"
)

// RuleSlug names a limit rule, such as "aes50-field".
type RuleSlug string

// LimitRule says how much a link of a medium may lose. One of pairs grades at 100 MHz; elsewhere it is drawn and advised from.
type LimitRule struct {
	Slug  RuleSlug
	Name  string
	Media Media
	// Limit is the limit in dB of a medium whose limits are one figure; 0 for those of pairs, which have a curve.
	Limit float64
	// TopMHz is the frequency up to which the curve holds; all begin at 1 MHz.
	TopMHz float64
	curve  pairline.Curve
	Provenance
}

// LimitAt gives the limit in dB at a frequency in MHz, from 1 to TopMHz; a rule that is one figure is the same at all.
func (r LimitRule) LimitAt(freqMHz float64) float64 {
	if r.curve == nil {
		return r.Limit
	}
	return r.curve(freqMHz)
}

// LimitDB is the limit that grades: that of a pair is the one at 100 MHz, in the tenths in which standards print it, so that
// limit less loss is the margin.
func (r LimitRule) LimitDB() float64 { return math.Round(r.LimitAt(pairline.GradeMHz)*10) / 10 }

// CurveRule is the rule whose whole curve advises on a link graded by this one: itself, except that the field rule, which
// is one figure at 100 MHz, leans on the link segment of IEEE 802.3.
func (r LimitRule) CurveRule() LimitRule {
	if r.Slug != fieldRule {
		return r
	}
	rule, err := LimitRuleBySlug(linkSegmentRule)
	if err != nil {
		panic(err)
	}
	return rule
}

const (
	fieldRule       RuleSlug = "aes50-field"
	linkSegmentRule RuleSlug = "ieee-link-segment"
)

// fieldLimitDB is what crews find AES50 to bear at 100 MHz.
const fieldLimitDB = 25

// Shares of a channel's cabling over its permanent cable: 90 m and 10 m of cords with a fifth, or a half, more loss.
const (
	channelShareFifth = (90 + 1.2*10) / 100
	channelShareHalf  = (90 + 1.5*10) / 100
)

var pairRules = []LimitRule{
	{
		Slug: fieldRule, Name: "field rule for AES50, 25 dB at 100 MHz", Media: BalancedPair, TopMHz: 100,
		curve: func(f float64) float64 {
			return fieldLimitDB * pairline.LinkSegmentLimit(f) / pairline.LinkSegmentLimit(pairline.GradeMHz)
		},
		Provenance: Provenance{
			CommonPractice,
			"no source; practice gives 25 dB at 100 MHz alone, and the curve below borrows the shape of IEEE 802.3 40.7.2.1",
		},
	},
	{
		Slug: linkSegmentRule, Name: "link segment, IEEE 802.3 40.7.2.1", Media: BalancedPair, TopMHz: 100,
		curve:      pairline.LinkSegmentLimit,
		Provenance: Provenance{Memory, "IEEE 802.3 40.7.2.1; equals the published Cat 5 channel table at 1, 4 and 100 MHz"},
	},
	channelRule("cat5e", channelShareFifth, 0, "24.0 dB at 100 MHz published"),
	channelRule("cat6", channelShareFifth, 0.0003, "21.3 dB at 100 MHz published"),
	channelRule("cat6a", channelShareHalf, 0, "20.9, 33.9 and 49.3 dB at 100, 250 and 500 MHz published, within 0.1 dB"),
}

// channelRule makes the limit of a channel: its cable, four connections of its hardware, and a deviation ·f^1.5.
func channelRule(slug CableSlug, share, deviation float64, check string) LimitRule {
	cable, err := CableBySlug(slug)
	if err != nil {
		panic(err)
	}
	plug, err := lookup(pairHardware, func(h Hardware) HardwareSlug { return h.Slug }, cable.Plug, "connecting hardware") // rows are not held yet
	if err != nil {
		panic(err)
	}
	loss := cable.Figures.Loss().Times(share).Plus(plug.Figures.Loss().Times(4))
	return LimitRule{
		Slug: "channel-" + RuleSlug(slug), Name: "channel " + cable.Name + " (TIA-568-C.2)", Media: BalancedPair,
		TopMHz:     cable.Figures.TopMHz,
		curve:      func(f float64) float64 { return loss.At(f) + deviation*math.Pow(f, 1.5) },
		Provenance: Provenance{Memory, "TIA-568-C.2; " + check},
	}
}

// LimitRules gives all limit rules.
func LimitRules() []LimitRule { return slices.Clone(held.Rules) }

// LimitRulesOf gives the limit rules of a medium.
func LimitRulesOf(media Media) []LimitRule {
	return slices.DeleteFunc(LimitRules(), func(r LimitRule) bool { return r.Media != media })
}

// LimitRuleBySlug finds a limit rule, or an error that wraps ErrUnknown and lists the slugs there are.
func LimitRuleBySlug(slug RuleSlug) (LimitRule, error) {
	return lookup(held.Rules, func(r LimitRule) RuleSlug { return r.Slug }, slug, "limit rule")
}

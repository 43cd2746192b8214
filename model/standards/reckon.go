package standards

import (
	"fmt"
	"strings"

	"stageloom/model/pairline"
)

// Question is what to reckon. Only Chain must be given.
type Question struct {
	// Chain is written as ChainGrammar explains.
	Chain string
	// TemperatureC is the cable temperature in °C; nil takes the default for indoors and wants the larger margin.
	TemperatureC *float64
	// Coupler is the hardware of all couplers; empty takes DefaultCoupler.
	Coupler HardwareSlug
	// Transport must be a graded one; empty takes DefaultTransport.
	Transport TransportSlug
	// Rule replaces the transport's limit rule; empty leaves it.
	Rule RuleSlug
	// WantedMarginDB replaces the margin wanted at this temperature; 0 leaves it. At least LeastWantedMarginDB.
	WantedMarginDB float64
}

// DefaultTransport is reckoned unless another is asked for.
const DefaultTransport TransportSlug = "aes50"

// Setting is a Question with every blank filled in and every slug looked up.
type Setting struct {
	Chain     Chain
	Transport Transport
	Rule      LimitRule
	Coupler   Hardware
	// TemperatureC is the cable temperature in °C; TemperatureStated is false where it is the default for indoors.
	TemperatureC      float64
	TemperatureStated bool
	WantedMarginDB    float64
}

// StepKind says what a step of the budget is.
type StepKind string

// The kinds of step.
const (
	CableStep      StepKind = "cable"
	ConnectionStep StepKind = "connection"
)

// Step is one part of a line in its budget; losses at 100 MHz.
type Step struct {
	Kind    StepKind
	Name    string
	Length  float64 // m; 0 for a connection
	LossDB  float64
	TotalDB float64 // from the near end up to and with this part
}

// Direct is direct current over the link by one type of power; Err says why the line does not bear it.
type Direct struct {
	Type PowerType
	Feed pairline.Feed
	Err  error
}

// Reach is how long a run of one construction could be, with as many couplers as the chain has.
type Reach struct {
	Construction
	Couplers int
	Length   float64 // m, at the limit: nothing in hand
	Wanted   float64 // m, with the wanted margin in hand
}

// Advice is what is worth knowing beside the verdict; crosstalk at 100 MHz and at the worse end.
type Advice struct {
	// WorstMarginDB at WorstMHz is the smallest margin against the whole curve of Curve.
	Curve                   LimitRule
	WorstMarginDB, WorstMHz float64
	MeanMarginDB            float64
	SpreadDB                float64
	// Risk is the chance that the margin is negative at this temperature; RiskFrom20 that over all temperatures from
	// 20 °C up to it, or the same where it is no warmer. Catalogue figures are maxima: both are upper estimates.
	Risk, RiskFrom20 float64
	Reflections      pairline.Reflections
	NEXT, ACRN, ACRF pairline.Crosstalk
	PowerSumNEXTDB   float64
	DelayNs, SkewNs  float64 // at 100 MHz
	PhaseDelayNs     float64 // at 100 MHz, as the cascade models it
	LoopOhm          float64 // of one pair
	Power            []Direct
}

// Reckoning is the full budget of a chain.
type Reckoning struct {
	Setting
	Line     pairline.Line
	Steps    []Step
	Loss     pairline.Loss
	LossDB   float64 // at 100 MHz
	LimitDB  float64
	MarginDB float64 // the number that grades
	Grade    Grade
	Advice   Advice
	Reaches  []Reach
	// Notes are sentences, what matters most first.
	Notes []string
}

// gradedTransport finds a transport that has a loss budget; the error names those alone.
func gradedTransport(slug TransportSlug) (Transport, error) {
	var graded []string
	for _, transport := range transports {
		switch {
		case !transport.Graded():
		case transport.Slug == slug:
			return transport, nil
		default:
			graded = append(graded, string(transport.Slug))
		}
	}
	if _, err := TransportBySlug(slug); err != nil {
		return Transport{}, fmt.Errorf("%w transport %q; write one of %s", ErrUnknown, shorten(string(slug)), strings.Join(graded, ", "))
	}
	return Transport{}, fmt.Errorf("transport %q has no loss budget; write one of %s", slug, strings.Join(graded, ", "))
}

// Settle looks up what a question names and fills in what it leaves blank. Errors name what to write instead.
func Settle(q Question) (Setting, error) {
	setting := Setting{TemperatureC: DefaultTemperatureC(Indoors, nil)}
	var err error
	if setting.Chain, err = ParseChain(q.Chain); err != nil {
		return Setting{}, err
	}
	if setting.Transport, err = gradedTransport(orElse(q.Transport, DefaultTransport)); err != nil {
		return Setting{}, err
	}
	if setting.Rule, err = LimitRuleBySlug(orElse(q.Rule, setting.Transport.Rule)); err != nil {
		return Setting{}, err
	}
	if setting.Coupler, err = HardwareBySlug(orElse(q.Coupler, DefaultCoupler)); err != nil {
		return Setting{}, err
	}
	if q.TemperatureC != nil {
		setting.TemperatureC, setting.TemperatureStated = *q.TemperatureC, true
	}
	setting.WantedMarginDB = WantedMarginDB(q.TemperatureC, DefaultTemperatureC(Indoors, nil))
	if q.WantedMarginDB != 0 {
		setting.WantedMarginDB = q.WantedMarginDB
	}
	if !(setting.WantedMarginDB >= LeastWantedMarginDB && setting.WantedMarginDB <= mostWantedMarginDB) {
		return Setting{}, fmt.Errorf("wanted margin is %g dB; it must be from %d to %d dB", setting.WantedMarginDB, LeastWantedMarginDB, mostWantedMarginDB)
	}
	return setting, nil
}

func orElse[S ~string](given, otherwise S) S {
	if given == "" {
		return otherwise
	}
	return given
}

// Reckon gives the full budget of a chain of cables without a plan. Errors name what is wrong and what to write instead:
// a *ChainError for the chain, ErrUnknown for a slug, a *pairline.RangeError for a figure.
func Reckon(q Question) (Reckoning, error) {
	setting, err := Settle(q)
	if err != nil {
		return Reckoning{}, err
	}
	line, err := setting.Chain.Line(setting.TemperatureC, setting.Coupler)
	if err != nil {
		return Reckoning{}, err
	}
	if err := line.Validate(); err != nil {
		return Reckoning{}, err
	}
	r := Reckoning{Setting: setting, Line: line, Loss: line.Loss(), LimitDB: setting.Rule.LimitDB()}
	r.LossDB = r.Loss.At(pairline.GradeMHz)
	r.MarginDB = r.LimitDB - r.LossDB
	r.Grade = GradeOf(r.MarginDB, setting.WantedMarginDB)
	r.Steps = steps(setting.Chain, line)
	r.Advice = advise(setting, line)
	if r.Reaches, err = reaches(setting); err != nil {
		return Reckoning{}, err
	}
	r.Notes = r.notes()
	return r, nil
}

// steps lists the parts of a line with the chain's own words for its cables.
func steps(chain Chain, line pairline.Line) []Step {
	list := make([]Step, 0, len(line.Parts))
	total, cable := 0.0, 0
	for _, part := range line.Parts {
		loss := part.Loss().At(pairline.GradeMHz)
		total += loss
		step := Step{LossDB: loss, TotalDB: total}
		switch p := part.(type) {
		case pairline.Segment:
			step.Kind, step.Name, step.Length = CableStep, chain.Cables[cable].Label(), p.Length
			cable++
		case pairline.Interface:
			step.Kind, step.Name = ConnectionStep, p.Name
		}
		list = append(list, step)
	}
	return list
}

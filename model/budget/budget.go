package budget

import (
	"stageloom/model/geom"
	"stageloom/model/medium"
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Grade is the verdict on a link; blank where its transport carries no grade.
type Grade = standards.Grade

// The grades, best first.
const (
	Ample    = standards.Ample
	Enough   = standards.Enough
	Tight    = standards.Tight
	Over     = standards.Over
	Uncabled = standards.Uncabled
	Ungraded = Grade("")
)

// Grades lists the grades, best first, without the blank one.
func Grades() []Grade { return []Grade{Ample, Enough, Tight, Over, Uncabled} }

// What says what a part of a link is.
type What uint8

// The parts of a link.
const (
	Cable      What = iota // one cable: a reel, a house line, or kind and length
	Lead                   // the inner lead between a panel and its device
	Coupler                // joins two plugs, or two sockets: two interfaces
	Connection             // a plug in the socket of the next cable: one interface
	Panel                  // a feed-through in front of a device: two interfaces
	Inner                  // the inner connection between a drum's cable and its socket: one interface
)

// Part is one part of a link in order from its near end: the steps in which its loss mounts.
type Part struct {
	What What
	// Order is the segment's order; 0 for a lead, a panel and what is assumed. A joint bears that of the segment behind it.
	Order int
	// Assumed marks the cable, and its coupler, that stand for the metres still missing.
	Assumed bool
	// Reel, HouseLine and Kind say which cable it is. Kind is set for every cable and lead of a known kind.
	Reel      plan.ReelID
	HouseLine plan.HouseLineID
	Kind      plan.CableKindID
	// Hardware is a coupler's or a panel's; blank where it has none of its own, and for couplers of transports without a
	// budget that name none.
	Hardware plan.HardwareID
	// Interfaces counts the mated connections of a joint.
	Interfaces int
	// Start and Length are metres of cable from the near end.
	Start, Length float64
	// BeforeDB is the loss up to this part, LossDB its own, both at the medium's reference.
	BeforeDB, LossDB float64
	// Unknown marks a cable whose loss is not known on this transport; it counts for nothing.
	Unknown bool
}

// End is where the part ends, in metres of cable from the near end.
func (p Part) End() float64 { return p.Start + p.Length }

// AfterDB is the loss up to the end of the part, in dB at the medium's reference.
func (p Part) AfterDB() float64 { return p.BeforeDB + p.LossDB }

// Origin says who decided a figure of a budget.
type Origin uint8

// The origins.
const (
	BySite      Origin = iota // the default for where the link lies
	ByPlan                    // the plan's own figure
	ByLink                    // the link's own figure
	ByTransport               // the transport's default
	ByMargin                  // the default margin for the temperature used
)

// Budget is the reckoning of one link as it would stand once its missing metres are laid. Its slices are shared: read
// them, never write them.
type Budget struct {
	Link      plan.LinkID
	Name      string
	Transport plan.TransportID
	// TransportName is the transport's name in words, or its slug where it is not known.
	TransportName string
	// Graded reports whether the transport's medium has a limit for it; without one there is no dB anywhere.
	Graded bool
	// Medium says what figures are taken at, and what else is known of them; nil where nothing is graded.
	Medium medium.Medium

	// Way, Rises and Slack are each rounded up to a tenth of a metre, and Run is their sum. Slack is Share % of the way and
	// what is left at each end.
	Way, Rises, Slack, Run float64
	// Measured says where the way has its metres from and how the slack was taken.
	Measured Measured
	// Laid is metres of the link's own cables, without inner leads; Missing is what they do not reach of Run.
	Laid, Missing float64
	// Fill is the kind the missing metres are reckoned as; blank where none is wanted, and then they are uncabled.
	Fill plan.CableKindID
	// FillName is that kind's name.
	FillName string

	// Parts are cables and joints from the near end on, with the assumed ones.
	Parts []Part
	// Joins counts the joints between the link's own cables; Interfaces all mated connections, with the assumed ones.
	Joins, Interfaces int

	// TemperatureC is the cable temperature reckoned with, SiteTemperatureC the default for where the link lies.
	TemperatureC, SiteTemperatureC float64
	TemperatureBy                  Origin
	// WantedDB is the margin a link should have: "enough" begins there and "ample" at twice as much.
	WantedDB float64
	WantedBy Origin
	Rule     plan.RuleID
	RuleBy   Origin
	LimitDB  float64

	// OwnDB is the link's own loss at the medium's reference, its assumed part included.
	OwnDB float64
	// Whole is the electrical line that the link is part of, where a passive device stands at one of its ends; nil where
	// the link is the line.
	Whole *Whole
	// Loss is the whole line's, from active port to active port; LossDB is its value and MarginDB what is left of the limit.
	Loss             medium.Loss
	LossDB, MarginDB float64
	// Grade is the outlook: how the line stands once its missing metres are laid. Holds reports whether it stands so now.
	Grade Grade
	// Faulty tells that a cable of the link is faulty, Tested that the link was tested on site as it lies.
	Faulty, Tested bool

	ownLoss                 medium.Loss
	ownLimitDB, ownWantedDB float64

	// Distance is the transport's stated distance in metres; 0 where it states none.
	Distance float64
}

// Assumed reports whether the budget counts cable that is not there yet.
func (b Budget) Assumed() bool { return b.Missing > 0 && b.Fill != "" }

// TooShort reports whether the link has cables and they do not reach.
func (b Budget) TooShort() bool { return b.Laid > 0 && b.Missing > 0 }

// Bare reports whether the link has no cable of its own yet.
func (b Budget) Bare() bool { return b.Laid == 0 }

// Length is metres of cable from end to end, the assumed ones included, without inner leads.
func (b Budget) Length() float64 {
	if b.Assumed() {
		return b.Laid + b.Missing
	}
	return b.Laid
}

// LineLength is metres of cable of the whole electrical line, the assumed ones included, without inner leads.
func (b Budget) LineLength() float64 {
	if b.Whole != nil {
		return b.Whole.Length
	}
	return b.Length()
}

// PastDistance reports whether the line's cable is longer than the transport's stated distance.
func (b Budget) PastDistance() bool {
	return b.Distance > 0 && geom.RoundMM(b.LineLength()) > b.Distance
}

// AboveStandard reports whether a graded link loses more than the standard of its lines allows, whatever rule grades it:
// a pair more than the 24.0 dB at 100 MHz of IEEE 802.3 40.7.2.1.
func (b Budget) AboveStandard() bool {
	limitDB, some := b.StandardDB()
	return some && b.HasMargin() && b.LossDB > limitDB
}

// StandardDB is what the standard of the link's lines allows, in dB; false where its medium has none.
func (b Budget) StandardDB() (limitDB float64, some bool) {
	if curved, is := b.Medium.(medium.Curved); is {
		return curved.StandardDB(), true
	}
	return 0, false
}

// Curve is the loss over frequency; false where the link's medium has no curves.
func (b Budget) Curve() (curve pairline.Curve, some bool) {
	if curved, is := b.Medium.(medium.Curved); is {
		return curved.Curve(b.Loss), true
	}
	return nil, false
}

// Reference says what the link's decibels are taken at, such as "at 100 MHz"; blank where it has none.
func (b Budget) Reference() string {
	if b.Medium == nil {
		return ""
	}
	transport, _ := standards.TransportBySlug(standards.TransportSlug(b.Transport))
	return b.Medium.Reference(transport)
}

// HasMargin reports whether MarginDB says something: the link is graded and cabled, or its missing metres have a kind.
func (b Budget) HasMargin() bool { return b.Graded && b.Grade != Uncabled }

// Unknown reports whether a cable of a graded line has no known loss, so that it cannot be graded.
func (b Budget) Unknown() bool {
	if b.Whole != nil {
		return b.Whole.Unknown
	}
	return b.ownUnknown()
}

func (b Budget) ownUnknown() bool {
	for i := range b.Parts {
		if b.Parts[i].Unknown {
			return true
		}
	}
	return false
}

// lacksKind reports whether metres are missing that nothing is wanted for, or that nobody has told: slack alone is no run.
func (b Budget) lacksKind() bool {
	return b.Length() == 0 || b.Missing > 0 && (b.Fill == "" || b.Measured.Wanting())
}

// grade settles the grade by margin and wanted margin.
func (b *Budget) grade() {
	lacking := b.lacksKind()
	if b.Whole != nil {
		lacking = b.Whole.Lacking
	}
	switch {
	case !b.Graded:
		b.Grade = Ungraded
	case lacking || b.Unknown():
		b.Grade = Uncabled
	default:
		b.Grade = standards.GradeOf(b.MarginDB, b.WantedDB)
	}
}

package budget

import (
	"strings"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Source says where the metres of a way have come from.
type Source uint8

// The sources.
const (
	Guess   Source = iota // the straight way times the plan's factor
	Drawn                 // along the way points, and no less than a guess
	Found                 // along a found way
	Paced                 // typed: somebody paced it
	Taped                 // typed: somebody taped it
	Told                  // typed: the venue says so
	Typed                 // typed, and nobody says by whom
	Unknown               // an end has no place and nobody typed a length
)

// Key is the source as one word for other programs.
func (s Source) Key() string {
	return [...]string{"guess", "drawn", "found", "paced", "taped", "venue", "typed", "unknown"}[s]
}

// String is the source in the words of the trade: "paced", "the venue says".
func (s Source) String() string {
	return [...]string{"guess", "drawn", "found", "paced", "taped", "the venue says", "typed", "not known"}[s]
}

// Standing is what stands at an end of a link, as far as slack asks.
type Standing uint8

// What stands at an end.
const (
	Anything Standing = iota
	Console
	StageBox
	Rack
)

// String is it in the words of the trade.
func (s Standing) String() string {
	return [...]string{"any other device", "console", "stage box", "rack"}[s]
}

// Slack where nobody typed any: common practice, no source. At an end it is what a console, a box or a rack is turned round
// and plugged by; along the way it is what that kind of figure is commonly wrong by: a guess and what the venue says 10 %,
// what was drawn, found or paced 5 %, a tape nothing. Within one position cables lie as they are seen to: 1 m at each end.
const (
	guessPercent  = 10.0
	walkedPercent = 5.0
	nearEnd       = 1.0
	otherEnd      = 3.0
)

var (
	endSlack   = [...]float64{Anything: otherEnd, Console: 5, StageBox: 3, Rack: 2}
	wayPercent = [...]float64{
		Guess: guessPercent, Told: guessPercent, Typed: guessPercent, Drawn: walkedPercent, Found: walkedPercent, Paced: walkedPercent,
		Taped: 0, Unknown: 0,
	}
)

// Measured is where the metres of a run have come from.
type Measured struct {
	Source Source
	// Sketched tells of a guess that follows a drawn way of three points in all.
	Sketched bool
	// Doubtful tells of a typed length that an end moved since.
	Doubtful bool
	// Factor is the plan's, by which a straight way is multiplied.
	Factor float64
	// Within tells that both ends stand in one position.
	Within bool
	// Unplaced tells that an end has no place, so that the drawn way is no way on the ground.
	Unplaced bool
	// Percent is the slack along the way, Ends what is left at the near and the far end in metres, unrounded.
	Percent   float64
	PercentBy Origin
	Ends      [2]float64
	EndsBy    Origin
	// Stands is what stands at the near and the far end.
	Stands [2]Standing

	exact [3]float64 // way, rises and slack in metres to the millimetre
}

// Wanting reports whether nobody gave the metres of a way and the plan cannot measure it: the run is then rises and slack
// alone, and no length to lay or to pick by. Within one position cables lie as they are seen to.
func (m Measured) Wanting() bool { return m.Source == Unknown && !m.Within }

// Straight reports whether the way is the straight one times the plan's factor.
func (m Measured) Straight() bool { return m.Source == Guess && !m.Sketched }

// Least is the run in metres before its parts were rounded up.
func (m Measured) Least() float64 { return m.exact[0] + m.exact[1] + m.exact[2] }

// readyStanding tells what each kind of device is to slack: what has channels, or is called so, is a console.
func (r *Reckoner) readyStanding() {
	r.standing = make(map[plan.KindID]Standing, r.plan.Kinds.Len())
	for i := range r.plan.Kinds.Len() {
		kind := r.plan.Kinds.At(i)
		switch name := strings.ToLower(kind.Name); {
		case kind.Channels > 0 || strings.Contains(name, "console"):
			r.standing[kind.ID] = Console
		case strings.Contains(name, "stage box") || strings.Contains(name, "stagebox") || strings.Contains(name, "riser box") || strings.Contains(name, "sub-snake"):
			r.standing[kind.ID] = StageBox
		case strings.Contains(name, "rack"):
			r.standing[kind.ID] = Rack
		}
	}
}

// measure fills in the run: its way and where that has its metres from, rises, slack.
func (b *Budget) measure(r *Reckoner, link *plan.Link, from, to end, points []plan.LinkPoint) {
	m := &b.Measured
	m.Factor, m.Doubtful = r.plan.Settings.Detour, link.Doubtful && link.TypedWay > 0
	m.Within = from.position != "" && from.position == to.position
	m.Unplaced = from.unplaced || to.unplaced
	m.Stands = [2]Standing{from.stands, to.stands}
	way := r.wayOf(m, link, from, to, points)
	m.takeSlack(link, &r.plan.Settings)
	m.exact = [3]float64{geom.RoundMM(way), geom.RoundMM(link.RiseFrom + link.RiseTo), geom.RoundMM(way*m.Percent/100 + m.Ends[0] + m.Ends[1])}
	b.Way, b.Rises, b.Slack = upToTenth(m.exact[0], 1), upToTenth(m.exact[1], 1), upToTenth(m.exact[2], 1)
	b.Run = geom.RoundMM(b.Way + b.Rises + b.Slack)
}

// fewest is how many way points a drawn way needs to be more than a guess: one of three points in all is still one.
const fewest = 2

// wayOf settles the length of the way of a link and its source: what was typed, else what was found, else what was drawn
// where that is longer than the guess, else the guess.
func (r *Reckoner) wayOf(m *Measured, link *plan.Link, from, to end, points []plan.LinkPoint) float64 {
	switch {
	case link.TypedWay > 0:
		m.Source = typedBy(link.TypedBy)
		return link.TypedWay
	case from.unplaced || to.unplaced:
		m.Source = Unknown
		return 0
	}
	guess := hop(from.at, from.height, to.at, to.height) * m.Factor
	if link.Way == "straight" {
		return guess
	}
	along := r.wayLength(from, to, points)
	switch {
	case link.Way == "found":
		m.Source = Found
	case along <= guess:
		return guess
	case len(points) < fewest:
		m.Sketched = true
	default:
		m.Source = Drawn
	}
	return along
}

func typedBy(word string) Source {
	switch word {
	case plan.Paced:
		return Paced
	case plan.Taped:
		return Taped
	case plan.Venue:
		return Told
	}
	return Typed
}

// takeSlack settles the slack: the link's own figure, else the plan's, else the rule.
func (m *Measured) takeSlack(link *plan.Link, s *plan.Settings) {
	m.Percent, m.Ends = wayPercent[m.Source], [2]float64{endSlack[m.Stands[0]], endSlack[m.Stands[1]]}
	if m.Within {
		m.Percent, m.Ends = 0, [2]float64{nearEnd, nearEnd}
	}
	switch {
	case link.SlackPercent.Set:
		m.Percent, m.PercentBy = link.SlackPercent.Value, ByLink
	case s.SlackPercent.Set:
		m.Percent, m.PercentBy = s.SlackPercent.Value, ByPlan
	}
	own := link.SlackEnd
	switch {
	case own.Set:
		m.EndsBy = ByLink
	case s.SlackEnd.Set:
		own, m.EndsBy = s.SlackEnd, ByPlan
	default:
		return
	}
	m.Ends = [2]float64{own.Value, own.Value}
}

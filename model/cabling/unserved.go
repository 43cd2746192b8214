package cabling

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// Why says why a link stays unserved.
type Why string

// The reasons. Crowded says that the stock would reach but others have what it takes, NoMetres that nobody said how long the
// way is; the others that no stock of this request serves the link, whoever has it.
const (
	Crowded  Why = "crowded out"
	TooShort Why = "too short"
	Over     Why = "over"
	NoFit    Why = "nothing fits"
	NoKind   Why = "no allowed kind"
	NoMetres Why = "no metres"
)

// Unserved is a link that no cables serve, and why.
type Unserved struct {
	Link     plan.LinkID
	Name     string
	Priority int
	Why      Why
	// Short is how many metres all that could be joined falls short; OverDB by how much the best that reaches is over.
	Short, OverDB float64
	// By are the links that hold what it would take, the least important first.
	By []plan.LinkID
	// Held tells that what it would take lies in links that were not picked for, or is kept where it is.
	Held bool

	// Lies tells that the link lies on site and was left as it lies; Lying are the links left so that hold what it would take.
	Lies  bool
	Lying []plan.LinkID

	by     string
	lying  string
	detail string
	// reference says what OverDB is taken at.
	reference string
}

// String says it in one sentence: "L07 cannot be reached from all of the stock: too short by 12.0 m".
func (u Unserved) String() string {
	words := u.why()
	switch {
	case u.lying != "":
		words += "; " + u.lying + map[bool]string{true: ", left as it lies", false: ", left as they lie"}[len(u.Lying) == 1]
	case u.Lies:
		words += "; it lies on site and is left as it lies"
	}
	return words
}

func (u Unserved) why() string {
	const whole = "cannot be reached from all of the stock"
	switch u.Why {
	case NoMetres:
		return u.Name + " has no length to pick by: nobody said how long its way is, and not both of its ends have a place; type its metres first"
	case Crowded:
		if u.by == "" {
			return u.Name + " gets none: too few for all"
		}
		return fmt.Sprintf("%s gets none, too few for all: taken by %s", u.Name, u.by)
	case TooShort:
		return fmt.Sprintf("%s %s: too short by %s", u.Name, whole, budget.Metres(u.Short))
	case Over:
		return fmt.Sprintf("%s %s: over by %s dB %s", u.Name, whole, budget.LossTenths(u.OverDB), u.reference)
	}
	return fmt.Sprintf("%s %s: %s", u.Name, whole, u.detail)
}

package strip

import (
	"stageloom/model/budget"
	"stageloom/model/quantity"
)

// Run is what the strip shows. The zero Run shows its hint alone.
type Run struct {
	Title, Note string
	Near, Far   End
	// Parts are the cables and joints from the near end on, and what is missing.
	Parts []Part
	// Length is how long the run is, in metres; the cables may be longer or shorter.
	Length float64
	// Graded tells that the run has a loss and a limit, both in dB at the medium's reference; Grade and MarginDB are known only
	// where HasMargin is true.
	Graded, HasMargin bool
	Grade             string
	LimitDB, MarginDB float64
	System            quantity.System
	// Hint says what to do where there is nothing to show yet.
	Hint string
}

// End is one end of the run.
type End struct{ Name, Port string }

// Part is a cable, or what joins two, or a stretch that no cable reaches.
type Part struct {
	What budget.What
	// Order is that of the link's own cable, 0 for all else.
	Order int
	// Assumed marks what is not there yet.
	Assumed bool
	// Labels name the part from long to short; the longest that finds room is shown.
	Labels []string
	// Detail says all about it, for when it is pointed at.
	Detail string
	// Start and Length are metres of cable from the near end.
	Start, Length float64
	// BeforeDB is the loss up to the part and LossDB its own.
	BeforeDB, LossDB float64
	// Cuttable marks a cable given by kind and length; a reel and a house line are not cut.
	Cuttable bool
	// Unknown marks a cable whose loss is not known.
	Unknown bool
}

// joint reports whether the part has no length of its own.
func (p Part) joint() bool { return p.What != budget.Cable && p.What != budget.Lead }

// end is where the part ends, in metres.
func (p Part) end() float64 { return p.Start + p.Length }

// metres is how much the strip has to show: all cable, or the run if that is longer.
func (r Run) metres() float64 {
	most := r.Length
	for _, part := range r.Parts {
		most = max(most, part.end())
	}
	return most
}

// loss is the loss of all parts.
func (r Run) loss() float64 {
	if len(r.Parts) == 0 {
		return 0
	}
	last := r.Parts[len(r.Parts)-1]
	return last.BeforeDB + last.LossDB
}

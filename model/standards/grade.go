package standards

// Grade says how a line stands against its limit. The empty Grade belongs to a transport that carries none.
type Grade string

// The grades. Uncabled is given to what no cable reaches; a margin never yields it.
const (
	Ample    Grade = "ample"
	Enough   Grade = "enough"
	Tight    Grade = "tight"
	Over     Grade = "over"
	Uncabled Grade = "uncabled"
)

// rounding forgives what float64 sums lose, so that a margin of exactly the wanted one is enough on every machine.
const rounding = 1e-9

// GradeOf grades a margin in dB against the wanted margin in dB: ample from twice the wanted margin, enough
// from the wanted margin, tight from nothing in hand, over below that. A margin that is no number is over.
func GradeOf(marginDB, wantedDB float64) Grade {
	marginDB += rounding
	switch {
	case marginDB >= 2*wantedDB:
		return Ample
	case marginDB >= wantedDB:
		return Enough
	case marginDB >= 0:
		return Tight
	default:
		return Over
	}
}

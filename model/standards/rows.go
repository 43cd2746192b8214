package standards

import "slices"

// Rows are what media bring: transports, the limit rules that grade them, and connecting hardware, poorest first.
type Rows struct {
	Transports []Transport
	Rules      []LimitRule
	Hardware   []Hardware
}

// held are all rows there are.
var held Rows

// Hold adds rows, and returns what takes all of them out that were added since. Not while a plan is reckoned: who reads
// rows does not wait.
func Hold(rows Rows) (undo func()) {
	before := held
	held = Rows{
		slices.Concat(held.Transports, rows.Transports), slices.Concat(held.Rules, rows.Rules), slices.Concat(held.Hardware, rows.Hardware),
	}
	return func() { held = before }
}

func init() { Hold(Rows{transports, pairRules, pairHardware}) }

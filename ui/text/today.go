package text

import (
	"time"
)

// Today is the day as plans and the house's stock note it: year-month-day.
func Today() string { return time.Now().Format(time.DateOnly) }

// Now is the time by the clock of this machine, to which line checks are noted.
func Now() time.Time { return time.Now() }

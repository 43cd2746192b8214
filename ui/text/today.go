package text

import (
	"time"
)

// Today is the day as plans and the house's stock note it: year-month-day.
func Today() string { return time.Now().Format(time.DateOnly) }

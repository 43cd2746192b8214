package plan

import (
	"regexp"
	"time"
)

var day = regexp.MustCompile(`[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}`)

// NoSuchDay is the first day in a text, year-month-day in figures, that the calendar does not have; blank where there is none.
// A day in words is left alone.
func NoSuchDay(text string) string {
	for _, written := range day.FindAllString(text, -1) {
		if _, err := time.Parse("2006-1-2", written); err != nil {
			return written
		}
	}
	return ""
}

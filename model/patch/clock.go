package patch

import (
	"fmt"
	"regexp"
	"strconv"

	"stageloom/model/plan"
)

const (
	minutesOfDay = 24 * 60
	secondsOfDay = minutesOfDay * 60
)

var clockTime = regexp.MustCompile(`^([0-9]{1,2})[:.h]([0-9]{2})$`)

// MinuteOf reads a time of day such as 20:15 or 9.05 as minutes since midnight; 24:00 is midnight.
func MinuteOf(text string) (minute int, known bool) {
	parts := clockTime.FindStringSubmatch(plan.Folded(text))
	if parts == nil {
		return 0, false
	}
	hours, _ := strconv.Atoi(parts[1])
	minutes, _ := strconv.Atoi(parts[2])
	if minutes > 59 || hours*60+minutes > minutesOfDay {
		return 0, false
	}
	return hours*60 + minutes, true
}

// clockWords is a time of day, past midnight too, with its seconds where it has some or all are to have them: "16:20", "16:20:40".
func clockWords(seconds int, always bool) string {
	seconds %= secondsOfDay
	said := fmt.Sprintf("%02d:%02d", seconds/3600, seconds/60%60)
	if always || seconds%60 != 0 {
		said += fmt.Sprintf(":%02d", seconds%60)
	}
	return said
}

package text

import (
	"fmt"
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// DevicesTold says what a list of devices comes to: "4 devices are new, in the list without a place; 2 change".
func DevicesTold(c exchange.DevicesComing) string {
	var said []string
	add := func(count int, one, many, told string) {
		if count > 0 {
			said = append(said, words.Counted(count, one, many)+told)
		}
	}
	add(c.New-c.Placed, "new device", "new devices", " in the list, without a place on the ground")
	add(c.Placed, "new device", "new devices", " on the plan")
	add(len(c.Changes), "device changes", "devices change", "")
	add(c.Same, "device stays as it is", "devices stay as they are", "")
	if len(c.Positions) > 0 {
		said = append(said, words.Counted(len(c.Positions), "position is made", "positions are made")+": "+strings.Join(shortened(c.Positions), ", "))
	}
	if len(said) == 0 {
		return "no device"
	}
	return strings.Join(said, "; ")
}

// shortened are so many names as are read at a glance, each clipped.
func shortened(names []string) []string {
	var short []string
	for i, name := range names {
		if i == words.MostListed {
			return append(short, "…")
		}
		short = append(short, plan.Clipped(name))
	}
	return short
}

// DeviceChangesTold lists what a list changes about devices of the plan, at most so many, each in a line of its own.
func DeviceChangesTold(c exchange.DevicesComing, most int) string {
	var lines []string
	for i, change := range c.Changes {
		if i == most {
			lines = append(lines, fmt.Sprintf("… and %d more.", len(c.Changes)-most))
			break
		}
		lines = append(lines, change.Name+": "+change.Words+".")
	}
	return strings.Join(lines, "\n")
}

package report

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"stageloom/model/words"
	"stageloom/report/paper"
)

// stated says what the kinds of devices state of mains and delay, summed up; blank where the plan has no device of its own.
func (p *printout) stated() []paper.Definition {
	var list []paper.Definition
	if len(p.Supplies()) > 0 {
		draws := p.suppliedWatts()
		if draws == "" {
			draws = "no kind of device states what it draws"
		}
		list = append(list, paper.Definition{Term: "Mains", Text: "By supply, as kinds of devices state it: " + draws +
			". Not measured, and no inrush is counted: the site's qualified electrician decides."})
	}
	if ways := p.latencies(); len(ways) > 0 {
		list = append(list, paper.Definition{Term: "Latency", Text: "Longest way from a socket to a channel, as kinds of devices state it: " + strings.Join(ways, "; ") + "."})
	}
	return list
}

// suppliedWatts sums up what devices draw by the supply that feeds them; blank where no kind states it.
func (p *printout) suppliedWatts() string {
	var said []string
	stated := false
	for _, supply := range p.Supplies() {
		figures := words.Counted(supply.Devices, "device", "devices") + ", " + watts(supply.Watts)
		switch {
		case supply.Devices == 0:
			figures = none(supply.Silent)
		case supply.Silent > 0:
			figures += ", and " + none(supply.Silent)
		}
		stated = stated || supply.Devices > 0
		said = append(said, cmp.Or(supply.Name, "no stated supply")+": "+figures)
	}
	if !stated {
		return ""
	}
	return strings.Join(said, "; ")
}

// none says how many devices state nothing.
func none(devices int) string {
	return words.Counted(devices, "device that states none", "devices that state none")
}

// watts prints power, rounded up: watts below one kilowatt, else tenths of one.
func watts(power float64) string {
	if power = math.Ceil(power); power < 1000 {
		return fmt.Sprintf("%.0f"+space+"W", power)
	}
	return fmt.Sprintf("%.1f"+space+"kW", math.Ceil(power/100)/10)
}

// latencies says the longest way to each console.
func (p *printout) latencies() []string {
	var said []string
	for _, way := range p.Latencies() {
		figures := fmt.Sprintf("%.2f"+space+"ms", way.MS)
		silent := words.Counted(len(way.Silent), "kind on it states", "kinds on it state") + " none"
		switch {
		case way.MS == 0:
			figures = silent
		case len(way.Silent) > 0:
			figures = "at least " + figures + ", " + silent
		}
		said = append(said, fmt.Sprintf("%s (channel %d): %s", p.Patch.Name(way.Console), way.Channel, figures))
	}
	return said
}

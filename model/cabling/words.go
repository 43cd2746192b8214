package cabling

import (
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/plan"
)

// Words names the cables of a chain from the near end on: "LL01 + 50 m of Cat 6A + house line 3", or "no cable". A reel is
// named by its tag, or by its length and kind.
func Words(p *plan.Plan, chain []plan.Segment) string {
	if len(chain) == 0 {
		return "no cable"
	}
	names := make([]string, len(chain))
	for i, segment := range chain {
		names[i] = cableName(p, segment)
	}
	return strings.Join(names, " + ")
}

func cableName(p *plan.Plan, segment plan.Segment) string {
	kind, length := segment.Kind, segment.Length
	switch {
	case segment.Reel != "":
		reel, _ := p.Reels.Get(plan.Key(segment.Reel))
		if reel.Tag != "" {
			return reel.Tag
		}
		kind, length = reel.Kind, reel.Length
	case segment.HouseLine != "":
		line, _ := p.HouseLines.Get(plan.Key(segment.HouseLine))
		return "house line " + line.Name
	}
	return fmt.Sprintf("%s m of %s", plain(length), kindName(p, kind))
}

func kindName(p *plan.Plan, id plan.CableKindID) string {
	if kind, found := p.CableKinds.Get(plan.Key(id)); found {
		return kind.Name
	}
	return string(id)
}

// plain prints metres without zeros behind the point.
func plain(metres float64) string { return strconv.FormatFloat(metres, 'f', -1, 64) }

// fewNamed is how many links a reason names before it counts the rest.
const fewNamed = 4

package demotest

import (
	"fmt"

	"stageloom/model/demo/builder"
	"stageloom/model/plan"
)

// Theatre is an invented house of 60 devices at 15 positions within 60 by 40 m, four at each, as close as in racks; 56 links
// join them, in each position and from one to the next.
func Theatre() *plan.Plan {
	return builder.Plan("Theatre", 7, func(b *builder.Builder) {
		places := []struct {
			name string
			x, y float64
		}{
			{"Stage left", -8, 4},
			{"Stage right", 8, 4},
			{"Stage back", 0, 9},
			{"Pit", 0, -3},
			{"Control", 0, -22},
			{"Amplifier room left", -14, 12},
			{"Amplifier room right", 14, 12},
			{"Balcony left", -12, -16},
			{"Balcony right", 12, -16},
			{"Fly gallery", -12, 8},
			{"Trap room", 3, 1},
			{"Recording", 22, -24},
			{"Radio desk", -4, 12},
			{"Foyer", -22, -24},
			{"Workshop", 24, 14},
		}
		kinds := []plan.KindID{"aes50-router-5", "switch-24", "processor-6-12", "amplifier-rack-12"}
		for _, at := range places {
			b.Position(plan.Position{Name: at.name, X: at.x, Y: at.y, Width: 3, Depth: 2, Exposure: "indoors"})
			for n, kind := range kinds {
				b.Device(fmt.Sprintf("%s %s", at.name, []string{"router", "switch", "processor", "amplifiers"}[n]), kind, at.name,
					at.x+0.6*float64(n)-1, at.y+0.2*float64(n%2))
			}
		}
		for n, at := range places[1:] {
			last := places[n].name
			b.Link(plan.Link{Name: fmt.Sprintf("T%02d", n+1), Transport: "aes50", FromPort: "AES50 1", ToPort: "AES50 2"}, last+" router", at.name+" router", nil)
			for lane := range 3 {
				b.Link(plan.Link{
					Name: fmt.Sprintf("N%02d-%d", n+1, lane+1), Transport: "1000base-t",
					FromPort: fmt.Sprintf("%02d", lane+1), ToPort: fmt.Sprintf("%02d", lane+4),
				}, last+" switch", at.name+" switch", nil)
			}
		}
	})
}

package demotest

import (
	"fmt"
	"math"
	"math/rand/v2"

	"stageloom/model/demo"
	"stageloom/model/demo/builder"
	"stageloom/model/plan"
)

// Crowd is a valid plan for benchmarks: the Weekender with so many links more between half as many routers, which stand
// over its whole site: one link of two goes to the next router, the other right across, over other links and areas. Half
// of them are cabled. The same seed gives the same plan.
func Crowd(seed uint64, links int) *plan.Plan {
	return builder.On(demo.Weekender(), seed, func(b *builder.Builder) { crowd(b, rand.New(rand.NewPCG(seed, 0xC120D)), links) })
}

// crowd stands routers over 300 by 200 m and joins each to its neighbour and to one anywhere.
func crowd(b *builder.Builder, random *rand.Rand, links int) {
	routers := links/2 + 2
	across := int(math.Ceil(math.Sqrt(1.5 * float64(routers))))
	ids := make([]plan.DeviceID, routers)
	for i := range ids {
		name := fmt.Sprintf("Crowd router %d", i+1)
		b.Device(name, "aes50-router-5", "", 300/float64(across)*float64(i%across)-150, 300/float64(across)*float64(i/across)-100)
		ids[i] = b.Devices[name]
	}
	order := random.Perm(routers)
	for i := range links {
		link := plan.Link{Name: fmt.Sprintf("C%d", i+1), Transport: "aes50", FillKind: "cat6a-own", FromPort: "AES50 1", ToPort: "AES50 2"}
		n := i / 2
		link.From, link.To = ids[n], ids[(n+1)%routers]
		if i%2 == 1 {
			link.From, link.To, link.FromPort, link.ToPort = ids[order[n]], ids[order[(n+1)%routers]], "AES50 3", "AES50 4"
		}
		id := b.Edit.AddLink(link)
		if random.IntN(2) == 0 {
			b.Edit.SetSegments(id, []plan.Segment{{Kind: "cat6a-own", Length: float64(5 + random.IntN(60))}, {Kind: "cat6a-own", Length: 20}})
		}
	}
}

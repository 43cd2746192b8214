package demotest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"stageloom/model/demo/builder"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Sizes of a large plan.
const (
	LargeDevices = 500
	LargeLinks   = 750
	LargeInputs  = 2000
	LargeActs    = 20

	linksOfStage  = 30 // with the one onward
	inputsOfStage = 80
	reelsOfStage  = 120   // of each row of stock
	mostReels     = 10000 // that a row of stock may hold
	mostSegments  = 19000 // laid by their links; a table holds few more
	stageSpacing  = 260.0
)

// Large is a valid plan for benchmarks: 25 stages of 20 devices and 30 links each, 2,000 inputs patched from socket over
// slot to console. The same seed gives the same plan.
func Large(seed uint64) *plan.Plan { return Sized(seed, LargeLinks) }

// Sized is a plan as Large of this many links, rounded up to whole stages of 30, with at most 2,000 inputs.
func Sized(seed uint64, links int) *plan.Plan {
	stages := (links + linksOfStage - 1) / linksOfStage
	return builder.Plan("Large", seed, func(b *builder.Builder) {
		l := large{
			Builder: b, random: rand.New(rand.NewPCG(seed, 0x1A26E)), stages: stages,
			across: int(math.Ceil(math.Sqrt(float64(stages)))), inputs: min(inputsOfStage, LargeInputs/stages),
		}
		l.largeStock()
		for stage := range stages {
			l.stage(stage)
		}
		for stage := range stages {
			l.onward(stage)
		}
		l.widen("console-72", "Console")
		l.widen("console-56", "Monitor console")
		l.patch()
	})
}

// LargeShow is the large plan with 20 acts, each of which has 80 inputs elsewhere, strikes 40 and leaves 40 channels empty:
// 2,000 inputs in 20 acts.
func LargeShow(seed uint64) *plan.Plan {
	p := Large(seed)
	random := rand.New(rand.NewPCG(seed, 0xAC75))
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		rows := slices.Collect(p.StagePatches.All())
		channels := slices.Collect(p.ConsolePatches.All())
		for n := range LargeActs {
			act := plan.ActID(fmt.Sprintf("n-222%c%c", plan.Signs[n/10], plan.Signs[n%10]))
			plan.Put(e, plan.Act{ID: act, Name: fmt.Sprintf("Act %d", n+1), Order: n + 1, Stage: "Main"})
			picked := random.Perm(len(rows))
			for i, pick := range picked[:120] {
				row := rows[pick]
				row.Act = act
				switch {
				case i < 80: // two and two change places
					other := rows[picked[i^1]]
					row.Device, row.Socket = other.Device, other.Socket
				default:
					row.Device, row.Socket, row.Strike = "", 0, true
				}
				plan.Put(e, row)
			}
			for _, pick := range random.Perm(len(channels))[:40] {
				plan.Put(e, plan.ConsolePatch{Act: act, Console: channels[pick].Console, Channel: channels[pick].Channel, Strike: true})
			}
		}
		return nil
	})
	builder.Must(err)
	return next
}

// large lays the stages of a large plan.
type large struct {
	*builder.Builder
	random *rand.Rand
	// stages stand so many across, and each has so many inputs.
	stages, across, inputs int
}

// largeStock is plenty of reels in few rows.
func (l *large) largeStock() {
	for _, r := range []plan.Reel{
		{Tag: "long", Kind: "cat6a-own", Length: 60, Quantity: min(reelsOfStage*l.stages, mostReels)},
		{Tag: "middle", Kind: "cat6a-own", Length: 30, Quantity: min(reelsOfStage*l.stages, mostReels)},
		{Tag: "stage", Kind: "cat6a", Length: 40, Quantity: min(reelsOfStage*l.stages, mostReels)},
		{Tag: "short", Kind: "cat6", Length: 15, Quantity: min(reelsOfStage*l.stages, mostReels)},
		{Tag: "fibre", Kind: "fibre-multimode", Length: 150, Quantity: min(reelsOfStage*l.stages, mostReels)},
		{Tag: "multicore", Kind: "multicore-16", Length: 50, Quantity: min(reelsOfStage*l.stages, mostReels)},
		{Tag: "audio", Kind: "audio-pair", Length: 50, Quantity: min(reelsOfStage*l.stages, mostReels)},
	} {
		l.Reel(r)
	}
}

func (l *large) name(stage int, what string) string { return fmt.Sprintf("%s %02d", what, stage+1) }

// stage adds 20 devices about its middle and all its links but the one onward.
func (l *large) stage(stage int) {
	x, y := stageSpacing*float64(stage%l.across), -stageSpacing*float64(stage/l.across)
	l.Position(plan.Position{Name: l.name(stage, "Stage"), X: x, Y: y, Width: 120, Depth: 120, Exposure: [3]string{"indoors", "shade", "sun"}[l.random.IntN(3)]})
	kit := []struct {
		what  string
		kind  plan.KindID
		count int
	}{
		{"Console", "console-72", 1},
		{"Monitors", "console-56", 1},
		{"Router", "aes50-router-5", 1},
		{"Rack", "stage-rack-48-20", 6},
		{"Switch", "switch-24", 2},
		{"Amplifiers", "amplifier-rack-12", 4},
		{"Processor", "processor-6-12", 2},
		{"Radio", "rf-rack-16", 2},
		{"Talk", "intercom-main-4", 1},
	}
	at := 0
	for _, row := range kit {
		for n := range row.count {
			jitter := geom.Pt(l.random.Float64()*8-4, l.random.Float64()*8-4)
			l.Device(l.name(stage, fmt.Sprintf("%s %d", row.what, n+1)), row.kind, l.name(stage, "Stage"),
				x+14*float64(at%5)-28+jitter.X, y+15*float64(at/5)-22+jitter.Y)
			at++
		}
	}
	l.audioLinks(stage)
	l.networkLinks(stage)
}

// join adds a link with reels of these tags at random until they reach its run, one way in three drawn round a corner.
// One link in twelve is left a reel short; where no more segments can be held, links stay uncabled.
func (l *large) join(stage int, link plan.Link, from, to string, fill plan.CableKindID, tags ...string) {
	link.FillKind = fill
	a, _ := l.Edit.Now().Device(l.Devices[l.name(stage, from)])
	b, _ := l.Edit.Now().Device(l.Devices[l.name(stage, to)])
	way := geom.Polyline{a.At(), b.At()}
	if l.random.IntN(3) == 0 {
		way = geom.Polyline{a.At(), geom.Pt(a.X+l.random.Float64()*20, a.Y-l.random.Float64()*20), b.At()}
	}
	settings := l.Edit.Now().Settings
	need := way.Length()*settings.Detour*(1+settings.SlackPercent.Value/100) + 2*settings.SlackEnd.Value
	var chosen []string
	for reached := 0.0; reached < need; {
		tag := tags[l.random.IntN(len(tags))]
		reel, _ := l.Edit.Now().Reels.Get(plan.Key(l.Reels[tag]))
		reached += reel.Length
		chosen = append(chosen, tag)
	}
	if l.random.IntN(12) == 0 {
		chosen = chosen[1:]
	}
	if l.Edit.Now().Segments.Len()+len(chosen) > mostSegments {
		chosen = nil
	}
	l.Link(link, l.name(stage, from), l.name(stage, to), l.With(chosen...), way[1:len(way)-1]...)
}

// audioLinks are twelve AES50 links, two multicores and one AES3.
func (l *large) audioLinks(stage int) {
	targets := []struct{ device, port string }{
		{"Console 1", "AES50 1"},
		{"Console 1", "AES50 2"},
		{"Console 1", "AES50 3"},
		{"Console 1", "AES50 4"},
		{"Monitors 1", "AES50 1"},
		{"Router 1", "AES50 1"},
		{"Monitors 1", "AES50 3"},
		{"Monitors 1", "AES50 2"},
		{"Router 1", "AES50 2"},
		{"Router 1", "AES50 3"},
		{"Router 1", "AES50 4"},
		{"Router 1", "AES50 5"},
	}
	for i, target := range targets {
		from, port := fmt.Sprintf("Rack %d", i%6+1), []string{"AES50 1", "AES50 2"}[i/6]
		l.join(stage, plan.Link{Transport: "aes50", FromPort: port, ToPort: target.port}, from, target.device, "cat6a-own", "long", "middle", "stage")
	}
	for n := 1; n <= 2; n++ {
		l.join(stage, plan.Link{Transport: "analogue-multicore", FromPort: "M", ToPort: "M1"}, fmt.Sprintf("Radio %d", n), fmt.Sprintf("Rack %d", n), "multicore-16", "multicore")
	}
	l.join(stage, plan.Link{Transport: "aes3", FromPort: "D1", ToPort: "D1"}, "Console 1", "Processor 1", "audio-pair", "audio")
}

// networkLinks are fourteen network links from the two switches.
func (l *large) networkLinks(stage int) {
	ends := []string{"Amplifiers 1", "Amplifiers 2", "Amplifiers 3", "Amplifiers 4", "Processor 1", "Processor 2", "Console 1"}
	for n := 1; n <= 2; n++ {
		for i, to := range ends {
			l.join(stage, plan.Link{Transport: "1000base-t", FromPort: fmt.Sprintf("%02d", i+1), ToPort: fmt.Sprintf("N%d", n)},
				fmt.Sprintf("Switch %d", n), to, "cat6a", "middle", "stage", "short")
		}
	}
}

// onward is the fibre from a stage to the next one, the last to the first.
func (l *large) onward(stage int) {
	l.Link(plan.Link{Transport: "fibre", FromPort: "F1", ToPort: "F2", FillKind: "fibre-multimode"},
		l.name(stage, "Switch 1"), l.name((stage+1)%l.stages, "Switch 1"), l.With("fibre", "fibre"))
}

// widen gives a console of the catalogue a channel for every input of its stage.
func (l *large) widen(console plan.KindID, name string) {
	builder.Must(plan.Update(l.Edit, plan.Key(console), func(k *plan.Kind) {
		k.Channels = l.inputs
		k.Name = fmt.Sprintf("%s, %d channels", name, k.Channels)
	}))
}

// patch numbers 2,000 inputs, 80 a stage, and takes each from a rack over a slot to both consoles.
func (l *large) patch() {
	links := map[plan.DeviceID][]plan.LinkID{}
	for link := range l.Edit.Now().Links.All() {
		if link.Transport == "aes50" {
			links[link.From] = append(links[link.From], link.ID)
		}
	}
	for number := range l.stages * l.inputs {
		stage, place := number/l.inputs, number%l.inputs
		rack := l.Devices[l.name(stage, fmt.Sprintf("Rack %d", place/40+1))]
		socket := place%40 + 1
		rows := l.Edit.Now()
		id := plan.InputID(l.ID("i", func(id string) bool { return rows.Inputs.Has(plan.Key(id)) }))
		plan.Put(l.Edit, plan.Input{ID: id, Number: number + 1, Name: fmt.Sprintf("Input %d", number+1), Phantom: l.random.IntN(3) == 0})
		plan.Put(l.Edit, plan.StagePatch{Input: id, Device: rack, Socket: socket})
		for _, console := range []string{"Console 1", "Monitors 1"} {
			plan.Put(l.Edit, plan.ConsolePatch{Console: l.Devices[l.name(stage, console)], Channel: place + 1, Device: rack, Socket: socket})
		}
		for _, link := range links[rack] {
			plan.Put(l.Edit, plan.SlotPatch{Link: link, Direction: "forward", Slot: socket, Device: rack, Socket: socket})
		}
	}
}

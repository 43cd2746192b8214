package demo

import (
	"strings"

	"stageloom/model/plan"
)

// inputList is the input list of the main stage: name, source, stand. A "*" before the name wants phantom power.
const inputList = `Kick in|boundary|-
Kick out|dynamic|short boom
Snare top|dynamic|short boom
Snare bottom|dynamic|clip
*Hat|condenser|short boom
Rack tom|dynamic|clip
Floor tom|dynamic|clip
*Ride|condenser|clip
*Overhead left|condenser|tall boom
*Overhead right|condenser|tall boom
Percussion 1|dynamic|tall boom
Percussion 2|dynamic|tall boom
*Djembe|condenser|clip
Bass DI|DI|-
Bass amp|dynamic|short boom
Guitar left|dynamic|short boom
Guitar left, second|dynamic|short boom
Guitar right|dynamic|short boom
Acoustic guitar|DI|-
Mandolin|DI|-
Keys 1 left|DI|-
Keys 1 right|DI|-
Keys 2 left|DI|-
Keys 2 right|DI|-
Organ low|dynamic|short boom
*Organ high|condenser|tall boom
Trumpet|dynamic|tall boom
Trombone|dynamic|tall boom
*Saxophone|condenser|clip
*Fiddle|condenser|clip
*Cello|condenser|clip
Accordion left|DI|-
Accordion right|DI|-
Playback 1|DI|-
Playback 2|DI|-
Playback 3|DI|-
Playback click|DI|-
Lead voice|dynamic|straight
Voice left|dynamic|tall boom
Voice right|dynamic|tall boom
Voice drums|dynamic|tall boom
Voice keys|dynamic|tall boom
Radio voice 1|radio|straight
Radio voice 2|radio|straight
*Audience left|condenser|tall boom
*Audience right|condenser|tall boom
Announcer|dynamic|straight
Talkback|dynamic|-`

// outputList is the output list of the main stage.
const outputList = "PA left|PA right|Subs|Front fill|Delay left|Delay right|Monitor 1|Monitor 2|Monitor 3|Monitor 4|Drum fill|Side fill left|Side fill right|Broadcast left|Broadcast right"

// inputs writes both lists and the house patch: drums on the riser box, then the stage rack, then the stage right box.
func (b *builder) inputs() {
	for i, line := range strings.Split(inputList, "\n") {
		words := strings.Split(line, "|")
		name, phantom := strings.CutPrefix(words[0], "*")
		stand := strings.TrimPrefix(words[2], "-")
		rows := b.edit.Now()
		id := plan.InputID(b.id("i", func(id string) bool { return rows.Inputs.Has(plan.Key(id)) }))
		plan.Put(b.edit, plan.Input{ID: id, Number: i + 1, Name: name, Source: words[1], Stand: stand, Phantom: phantom, Riser: riser(i + 1)})
		device, socket := b.place(i + 1)
		plan.Put(b.edit, plan.StagePatch{Input: id, Device: device, Socket: socket})
		for _, console := range []string{"FOH console", "Monitor console"} {
			plan.Put(b.edit, plan.ConsolePatch{Console: b.devices[console], Channel: i + 1, Device: device, Socket: socket})
		}
		b.slot(device, socket)
	}
	for i, name := range strings.Split(outputList, "|") {
		rows := b.edit.Now()
		id := plan.OutputID(b.id("o", func(id string) bool { return rows.Outputs.Has(plan.Key(id)) }))
		plan.Put(b.edit, plan.Output{ID: id, Number: i + 1, Name: name})
	}
}

func riser(number int) string {
	if number <= 8 {
		return "drums"
	}
	return ""
}

// place is the socket of an input in the house patch.
func (b *builder) place(number int) (plan.DeviceID, int) {
	switch {
	case number <= 8:
		return b.devices["Riser box"], number
	case number <= 32:
		return b.devices["Stage rack"], number - 8
	}
	return b.devices["Stage right box"], number - 32
}

// slot puts a socket on the slot of the same number of its box's links.
func (b *builder) slot(device plan.DeviceID, socket int) {
	for _, name := range map[plan.DeviceID][]string{
		b.devices["Stage rack"]:      {"L01", "L07"},
		b.devices["Stage right box"]: {"L02"},
		b.devices["Riser box"]:       {"L03", "L08"},
	}[device] {
		plan.Put(b.edit, plan.SlotPatch{Link: b.links[name], Direction: "forward", Slot: socket, Device: device, Socket: socket})
	}
}

// acts are three bands; each stores only what differs from the house patch.
func (b *builder) acts() {
	acts := []struct {
		act     plan.Act
		strikes []int
		moves   map[int]int // input number to socket of the stage rack
	}{
		{plan.Act{Name: "Low Tide Brass", Order: 1, Start: "17:30", End: "18:15"}, []int{14, 16, 17, 34, 35, 36, 37}, map[int]int{27: 25, 28: 26, 29: 27}},
		{plan.Act{Name: "Marigold Static", Order: 2, Start: "19:00", End: "20:00"}, []int{27, 28, 29, 32, 33}, map[int]int{21: 28, 22: 29}},
		{plan.Act{Name: "The Quiet Turbines", Order: 3, Start: "21:00", End: "22:45"}, []int{19, 20}, nil},
	}
	inputs := map[int]plan.InputID{}
	for input := range b.edit.Now().Inputs.All() {
		inputs[input.Number] = input.ID
	}
	for i, a := range acts {
		a.act.ID, a.act.Stage = plan.ActID("n-2222"+plan.Signs[i:i+1]), "Main stage"
		plan.Put(b.edit, a.act)
		for _, number := range a.strikes {
			plan.Put(b.edit, plan.StagePatch{Act: a.act.ID, Input: inputs[number], Strike: true})
		}
		for number, socket := range a.moves {
			plan.Put(b.edit, plan.StagePatch{Act: a.act.ID, Input: inputs[number], Device: b.devices["Stage rack"], Socket: socket})
		}
	}
}

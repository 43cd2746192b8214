package demo

import (
	"maps"
	"slices"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/demo/builder"
	"stageloom/model/patch"
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

// inputs writes both lists.
func (b *weekender) inputs() {
	for i, line := range strings.Split(inputList, "\n") {
		words := strings.Split(line, "|")
		name, phantom := strings.CutPrefix(words[0], "*")
		stand := strings.TrimPrefix(words[2], "-")
		rows := b.Edit.Now()
		input := plan.Input{
			ID: plan.InputID(b.ID("i", func(id string) bool { return rows.Inputs.Has(plan.Key(id)) })), Number: i + 1,
			Name: name, Source: words[1], Use: use(words[1]), Stand: stand, Phantom: phantom, Riser: riser(i + 1),
		}
		switch number := i + 1; {
		case number >= 25 && number <= 32:
			input.Snake, input.SnakeWay = b.Devices["Horn snake"], number-24
		case words[1] == "radio":
			input.Snake, input.SnakeWay = b.Devices["RF rack"], number-42
		}
		plan.Put(b.Edit, input)
		b.rows = append(b.rows, input.ID)
	}
	for i, name := range strings.Split(outputList, "|") {
		rows := b.Edit.Now()
		id := plan.OutputID(b.ID("o", func(id string) bool { return rows.Outputs.Has(plan.Key(id)) }))
		plan.Put(b.Edit, plan.Output{ID: id, Number: i + 1, Name: name})
		builder.Must(patch.SetOutput(b.Edit, "", id, b.Devices[mixer(name)], patch.Socket{Device: b.Devices["Stage rack"], Number: i + 1}))
	}
}

// use is how a source is plugged.
func use(source string) string {
	switch source {
	case "DI":
		return "DI"
	case "radio":
		return "line"
	}
	return "mic"
}

func riser(number int) string {
	switch {
	case number <= 8:
		return "drums"
	case number >= 27 && number <= 31:
		return "horns"
	}
	return ""
}

// mixer is the console that an output comes from.
func mixer(output string) string {
	for _, word := range []string{"Monitor", "Drum fill", "Side fill"} {
		if strings.HasPrefix(output, word) {
			return "Monitor console"
		}
	}
	return "FOH console"
}

// house is the house patch: drums on the riser box, the middle of the list through the splitter, its horns over a sub-snake,
// radio over the RF rack's own multicore, the rest on the stage right box. Both consoles get all of it in the order of the
// list, the van what goes through the splitter; FOH owns gain and 48 V.
func (b *weekender) house() {
	plug := func(first, last int, device string) {
		builder.Must(patch.Fill(b.Edit, "", b.rows[first-1:last], patch.Socket{Device: b.Devices[device], Number: 1}, false))
	}
	plug(1, 8, "Riser box")
	plug(9, 24, "Splitter")
	plug(33, 42, "Stage right box")
	builder.Must(patch.Fill(b.Edit, "", b.rows[44:48], patch.Socket{Device: b.Devices["Stage right box"], Number: 11}, false))
	for _, console := range []string{"FOH console", "Monitor console"} {
		builder.Must(patch.FillChannels(b.Edit, "", b.Devices[console], b.rows, 1))
	}
	builder.Must(patch.FillChannels(b.Edit, "", b.Devices["Broadcast van"], b.rows[8:32], 1))
	foh := b.Devices["FOH console"]
	for device, sockets := range map[string]int{"Riser box": 8, "Stage rack": 48, "Stage right box": 16} {
		for socket := 1; socket <= sockets; socket++ {
			patch.Own(b.Edit, "", patch.Socket{Device: b.Devices[device], Number: socket}, foh, foh)
		}
	}
	for socket := 1; socket <= 24; socket++ {
		patch.Own(b.Edit, "", patch.Socket{Device: b.Devices["Broadcast rack"], Number: socket}, b.Devices["Broadcast van"], "")
	}
	_, err := patch.Keep(b.Edit, b.Links["L02"], patch.Return, "talkback")
	builder.Must(err)
}

// acts are three bands; each stores only what differs from the house patch. The last brings a console.
func (b *weekender) acts() {
	acts := []struct {
		act     plan.Act
		strikes []int
		moves   map[int]int // input number to socket of the splitter
	}{
		{plan.Act{Name: "Low Tide Brass", Order: 1, Start: "17:30", End: "18:15"}, []int{14, 16, 17, 34, 35, 36, 37}, map[int]int{27: 25, 28: 26, 29: 27}},
		{plan.Act{Name: "Marigold Static", Order: 2, Start: "19:00", End: "20:00"}, []int{27, 28, 29, 32, 33}, map[int]int{21: 28, 22: 29}},
		{plan.Act{Name: "The Quiet Turbines", Order: 3, Start: "21:00", End: "22:45"}, []int{19, 20}, nil},
	}
	for i, a := range acts {
		a.act.ID, a.act.Stage = plan.ActID("n-2222"+plan.Signs[i:i+1]), "Main stage"
		plan.Put(b.Edit, a.act)
		for _, number := range a.strikes {
			builder.Must(patch.Strike(b.Edit, a.act.ID, b.rows[number-1]))
		}
		for _, number := range slices.Sorted(maps.Keys(a.moves)) {
			builder.Must(patch.Plug(b.Edit, a.act.ID, b.rows[number-1], patch.Socket{Device: b.Devices["Splitter"], Number: a.moves[number]}, true))
		}
	}
	b.guest("n-22224")
}

// guest lets the last act bring its own console: it plugs into the drop at FOH and takes what goes through the splitter.
func (b *weekender) guest(act plan.ActID) {
	console := b.Devices["Guest console"]
	builder.Must(catalogue.UseCable(b.Edit, "cat6a-tail"))
	plan.Put(b.Edit, plan.ActConsole{
		Act: act, Console: console, Port: "AES50 1", Drop: b.Devices["FOH drop"], DropPort: "GUEST", TailKind: "cat6a-tail", Tail: 3, Note: "Comes at 20:10 on a dolly of its own.",
	})
	var inputs []plan.InputID
	for i, id := range b.rows[8:32] {
		if number := i + 9; number != 19 && number != 20 {
			inputs = append(inputs, id)
		}
	}
	builder.Must(patch.FillChannels(b.Edit, act, console, inputs, 1))
}

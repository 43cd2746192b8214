package fields

import (
	"fmt"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func inputFields() []*Field {
	d := definer{plan.InputsTable}
	return []*Field{
		d.field("number", "number", "Number", "its number in the list, 1 to 9999.").alone(),
		d.field("name", "name", "Input", "what it is called: Kick in, Lead vocal."),
		d.field("source", "source", "Source or mic", "what stands there: condenser, radio, keyboard.").ifBlank("condenser, radio …"),
		d.field("use", "use", "Type", "what it is: condenser, dynamic, ribbon, active DI, passive DI or line; mic or DI where nobody told more.").worded(map[string]string{"active_DI": "active DI", "passive_DI": "passive DI"}),
		d.field("phantom", "phantom_48V", "48 V", "yes: it wants 48 V."),
		d.field("stand", "stand", "Stand", "tall boom, short boom, clip.").ifBlank("tall boom, clip …"),
		d.field("riser", "riser", "Riser", "the riser that it stands on."),
		d.field("snake", "sub_snake", "Sub-snake", "the sub-snake that it plugs into first; blank is none.").by(putSnake),
		d.field("way", "sub_snake_way", "Snake socket", "the socket of the sub-snake that it plugs into.").by(putWay),
		d.field("right", "right_side", "Right side", "the input that is the right side, where this is the left side of a stereo pair; blank is mono.").
			among(of(rightInputs)).saying(of(func(s State, r plan.Input) string {
			return sideWords(rightInputs(s, r), string(r.Right), inputSide(s, r.Right))
		})).
			valued(of(func(_ State, r plan.Input) string { return string(r.Right) })).reading(of(rightInputs)).by(putRightInput).alone(),
		d.field("rf", "RF_channel", "RF channel", "the channel of the radio receiver: RF 1."),
		d.field("frequency", "frequency_MHz", "Frequency", "that its transmitter sends on.").ifBlank("none"),
		d.field("transmitter", "transmitter", "Transmitter", "the one that the performer has: handheld 1, belt pack 3."),
		d.field("check", "line_check_order", "Line check", "its place where an act's line check goes by hand; blank is by its number.").ifBlank("by number"),
		d.field("act", "act", "Act", "the act that alone has it; blank is every act.").none("every act"),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

func outputFields() []*Field {
	d := definer{plan.OutputsTable}
	return []*Field{
		d.field("number", "number", "Number", "its number in the list, 1 to 9999.").alone(),
		d.field("name", "name", "Output", "what it is called: Main left, Monitor 3."),
		d.field("mix", "mix", "Mix or bus", "the mix or bus of the console that it carries: Aux 3, Matrix 1."),
		d.field("kind", "output_kind", "Kind", "what it feeds.").worded(map[string]string{"side_fill": "side fill", "in_ear": "in-ear"}),
		d.field("right", "right_side", "Right side", "the output that is the right side, where this is the left side of a stereo pair; blank is mono.").
			among(of(rightOutputs)).saying(of(func(s State, r plan.Output) string {
			return sideWords(rightOutputs(s, r), string(r.Right), outputSide(s, r.Right))
		})).
			valued(of(func(_ State, r plan.Output) string { return string(r.Right) })).reading(of(rightOutputs)).by(putRightOutput).alone(),
		d.field("rf", "RF_channel", "RF channel", "the channel of the in-ear transmitter: IEM A."),
		d.field("frequency", "frequency_MHz", "Frequency", "that the in-ear transmitter sends on.").ifBlank("none"),
		d.field("pack", "in_ear_pack", "In-ear pack", "the receiver that the performer has: pack 1."),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

func actFields() []*Field {
	d := definer{plan.ActsTable}
	return []*Field{
		d.field("order", "order", "Order", "its place in the running list; another number moves it there.").by(putOrder).alone(),
		d.field("name", "name", "Act", "the band, or whatever comes on."),
		d.field("stage", "stage", "Stage", "the stage that it plays on; acts of one stage follow each other."),
		d.field("start", "start", "Begins", "when, as the running list has it: 20:15.").ifBlank("20:15"),
		d.field("end", "end", "Ends", "when, as the running list has it: 21:45.").ifBlank("21:45"),
		d.field("check_by", "line_check_by", "Line check by", "the order in which it goes: by number, by area (the riser) or by hand (each input's place).").worded(map[string]string{"": "number"}),
		d.field("check_start", "line_check_start", "Line check at", "when it begins, as the running list has it: 16:20.").ifBlank("16:20"),
		d.field("check_seconds", "line_check_seconds", "Seconds an input", "how long each input of the line check takes.").ifBlank("20"),
		d.made("guests", "Guest consoles", "consoles that it alone brings, by name, parted by semicolons; “at” names the drop that one plugs into, “tail” the cable from there: Guest FOH at FOH drop, tail 5 m of Cat 6A tail.",
			Words, of(sayGuests), putGuests).alone(),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

// putSnake puts an input on another sub-snake, on the same way where that is free; off it, no way is left.
func putSnake(_ State, e *plan.Edit, key plan.Key, value string) error {
	row, _ := e.Now().Inputs.Get(key)
	err := patch.SetSnake(e, row.ID, plan.DeviceID(value), row.SnakeWay)
	if err != nil && row.SnakeWay > 0 {
		err = patch.SetSnake(e, row.ID, plan.DeviceID(value), 0)
	}
	return err
}

func putWay(_ State, e *plan.Edit, key plan.Key, value string) error {
	row, _ := e.Now().Inputs.Get(key)
	way := 0
	if value != "" {
		number, err := Of(plan.InputsTable, "way").whole(value)
		if err != nil {
			return err
		}
		way = number
	}
	if row.Snake == "" && way > 0 {
		return fmt.Errorf("socket %d of which sub-snake? Choose the sub-snake first", way)
	}
	return patch.SetSnake(e, row.ID, row.Snake, way)
}

func putOrder(_ State, e *plan.Edit, key plan.Key, value string) error {
	place, err := Of(plan.ActsTable, "order").whole(value)
	if err != nil {
		return err
	}
	return patch.MoveAct(e, plan.ActID(key), place)
}

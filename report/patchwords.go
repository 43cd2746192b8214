package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// stage is what several sheets ask of the inputs: which are sides of a stereo pair, and which socket holds what in an act.
type stage struct {
	sides   map[plan.Key]string
	sockets map[plan.ActID]map[patch.Socket][]plugged
}

// plugged is an input on a socket: here is the place where it is plugged in, or the multicores by which it comes there.
type plugged struct {
	line *patch.Line
	here bool
	ways []patch.Way
}

// tail tells that the tail of a sub-snake is plugged in there.
func (in plugged) tail() bool { return !in.here && len(in.ways) == 0 }

// sideSign is the sign of a side of a stereo pair; blank for what is none.
func (p *printout) sideSign(id plan.Key) string {
	if p.stage.sides == nil {
		p.stage.sides = map[plan.Key]string{}
		for input := range p.Plan.Inputs.All() {
			p.pairUp(input.Key(), plan.Key(input.Right), p.Plan.Inputs.Has(plan.Key(input.Right)))
		}
		for output := range p.Plan.Outputs.All() {
			p.pairUp(output.Key(), plan.Key(output.Right), p.Plan.Outputs.Has(plan.Key(output.Right)))
		}
	}
	return p.stage.sides[id]
}

func (p *printout) pairUp(left, right plan.Key, there bool) {
	if there {
		p.stage.sides[left], p.stage.sides[right] = "L", "R"
	}
}

// withSide puts the sign of its side behind a name that does not end in it.
func (p *printout) withSide(name string, id plan.Key) string {
	sign := p.sideSign(id)
	last := strings.ToLower(name[strings.LastIndex(name, " ")+1:])
	if sign == "" || last == strings.ToLower(sign) || last == map[string]string{"L": "left", "R": "right"}[sign] {
		return name
	}
	return strings.TrimSpace(name + " " + sign)
}

// inputName is an input as a crew calls it: its number, its name and its side.
func (p *printout) inputName(i plan.Input) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s", i.Number, p.withSide(i.Name, i.Key())))
}

// outputName is an output as a crew calls it.
func (p *printout) outputName(o plan.Output) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s", o.Number, p.withSide(o.Name, o.Key())))
}

// source says what stands on stage for an input: what it is, its type, on what, and the riser.
func source(i plan.Input) string { return listedWords(sourceAlone(i), i.Stand, i.Riser) }

// sourceAlone says what an input is and its type, which is not said twice.
func sourceAlone(i plan.Input) string {
	use := patch.UseWords(i.Use)
	if strings.Contains(strings.ToLower(i.Source), strings.ToLower(use)) {
		return i.Source
	}
	return strings.TrimSpace(i.Source + " " + use)
}

// listedWords joins what is not blank.
func listedWords(list ...string) string {
	return strings.Join(slices.DeleteFunc(list, func(one string) bool { return one == "" }), ", ")
}

func inputRadio(i plan.Input) string { return patch.Radio(i.RFChannel, i.Frequency, i.Transmitter) }

// outputWords says what an output is: its kind, its mix, its radio channel and its pack.
func outputWords(o plan.Output) string {
	return listedWords(patch.KindWords(o.Kind), o.Mix, patch.Radio(o.RFChannel, o.Frequency, o.Pack))
}

// multiWay names a way of a multicore with the colour of its tape: "L31 blue, way 5".
func (p *printout) multiWay(way patch.Way) string {
	return fmt.Sprintf("%s, way"+space+"%d", p.Patch.MultiName(way.Link), way.Number)
}

// onSockets are the inputs on every socket in an act, the order of the inputs kept.
func (p *printout) onSockets(act *patch.Act) map[patch.Socket][]plugged {
	if p.stage.sockets == nil {
		p.stage.sockets = map[plan.ActID]map[patch.Socket][]plugged{}
	}
	if known := p.stage.sockets[act.Act.ID]; known != nil {
		return known
	}
	all := map[patch.Socket][]plugged{}
	for _, line := range act.Lines {
		for i, point := range p.Patch.Points(act, line) {
			all[point.Socket] = append(all[point.Socket], plugged{line, i == 0, point.Ways})
		}
	}
	p.stage.sockets[act.Act.ID] = all
	return all
}

// plugPlace is where an input is plugged in on stage; none where it is not.
func (p *printout) plugPlace(act *patch.Act, line *patch.Line) patch.Socket {
	if points := p.Patch.Points(act, line); len(points) > 0 {
		return points[0].Socket
	}
	return patch.Socket{}
}

// multis names the ways of all multicores that an input runs over to where it is heard: "L31 blue 5, L02 1".
func (p *printout) multis(act *patch.Act, line *patch.Line) string {
	var said []string
	points := p.Patch.Points(act, line)
	for i := range line.Legs {
		at := slices.IndexFunc(points, func(point patch.Point) bool { return point.Socket == line.Legs[i].Socket })
		if at < 0 || line.Legs[i].Socket.Output {
			continue
		}
		for _, way := range points[at].Ways {
			if words := fmt.Sprintf("%s"+space+"%d", p.Patch.MultiName(way.Link), way.Number); !slices.Contains(said, words) {
				said = append(said, words)
			}
		}
	}
	return strings.Join(said, ", ")
}

// usesMultis reports whether any input of an act runs over a multicore.
func (p *printout) usesMultis(act *patch.Act) bool {
	return slices.ContainsFunc(act.Lines, func(line *patch.Line) bool { return p.multis(act, line) != "" })
}

// channelsAt are the channels that get an input from a socket: of all legs where it is plugged in and where its ways part, of
// one at its preamp.
func channelsAt(in plugged, at patch.Socket) (all []patch.Channel) {
	for i := range in.line.Legs {
		leg := &in.line.Legs[i]
		if in.here || in.line.At == at || leg.Socket == at || slices.Contains(leg.Through, at) {
			all = append(all, leg.Channels...)
		}
	}
	return all
}

// wants48 marks what wants phantom power.
const wants48 = "48" + space + "V"

// powerAt says what is to be known of 48 V where an input lies on a socket: that it stands there and who switches it, or what
// must be heeded before anything is plugged in.
func (p *printout) powerAt(act *patch.Act, phantoms *patch.PhantomSheet, in plugged, at patch.Socket) string {
	said := phantoms.At(in.line, at)
	rest, on := strings.CutPrefix(said, "48 V")
	if !on || strings.HasPrefix(rest, " off") {
		return said
	}
	who := ""
	for _, feed := range p.Patch.Fed(act, in.line) {
		if who == "" && feed.Switch != "" {
			who = " " + p.Patch.Name(feed.Switch)
		}
	}
	return wants48 + who + rest
}

// numbersOn are the channels of a console among some, by number; one that is not reached says so.
func numbersOn(channels []patch.Channel, console plan.DeviceID) string {
	var said []string
	for _, channel := range channels {
		if channel.Console != console {
			continue
		}
		words := fmt.Sprint(channel.Number)
		if !channel.Reached {
			words += " not reached"
		}
		said = append(said, words)
	}
	return strings.Join(said, ", ")
}

// consolesOf are the consoles of some channels, in the natural order of their names.
func (p *printout) consolesOf(channels []patch.Channel) (list []plan.DeviceID) {
	for _, channel := range channels {
		if !slices.Contains(list, channel.Console) {
			list = append(list, channel.Console)
		}
	}
	slices.SortFunc(list, func(a, b plan.DeviceID) int { return words.Natural(p.Patch.Name(a), p.Patch.Name(b)) })
	return list
}

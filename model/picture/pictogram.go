package picture

import (
	"math"

	"stageloom/model/geom"
)

// PictogramStroke is a line of a pictogram in a square of side 1, y down, or a filled shape.
type PictogramStroke struct {
	Points []geom.Point
	Filled bool
}

// The pictograms, by what a device does.
const (
	PictogramBox        = "box"
	PictogramPanel      = "panel"
	PictogramSplitter   = "splitter"
	PictogramConsole    = "console"
	PictogramProcessor  = "processor"
	PictogramSwitch     = "switch"
	PictogramConverter  = "converter"
	PictogramAmplifier  = "amplifier"
	PictogramRadio      = "radio"
	PictogramIntercom   = "intercom"
	PictogramBroadcast  = "broadcast"
	PictogramAnything   = "device"
	pictogramRoundSteps = 10
)

// Pictograms lists the names of all pictograms.
func Pictograms() []string {
	return []string{
		PictogramBox, PictogramPanel, PictogramSplitter, PictogramConsole, PictogramProcessor, PictogramSwitch, PictogramConverter,
		PictogramAmplifier, PictogramRadio, PictogramIntercom, PictogramBroadcast, PictogramAnything,
	}
}

// Pictogram is what a device does, drawn plainly; a name that is not known is that of a device of which nothing more is known.
func Pictogram(name string) []PictogramStroke {
	if drawn, known := pictograms[name]; known {
		return drawn
	}
	return pictograms[PictogramAnything]
}

var pictograms = map[string][]PictogramStroke{
	// A box with two rows of sockets.
	PictogramBox: {frame(.06, .2, .94, .8), dot(.25, .4), dot(.5, .4), dot(.75, .4), dot(.25, .62), dot(.5, .62), dot(.75, .62)},
	// A plate with sockets, its cable hanging from it.
	PictogramPanel: {frame(.2, .06, .8, .62), dot(.38, .26), dot(.62, .26), dot(.38, .46), dot(.62, .46), line(.5, .62, .5, .94)},
	// One line becomes three.
	PictogramSplitter: {line(.05, .5, .4, .5), line(.4, .5, .68, .18, .95, .18), line(.4, .5, .95, .5), line(.4, .5, .68, .82, .95, .82)},
	// A sloped desk with three faders.
	PictogramConsole: {
		line(.06, .84, .2, .18, .8, .18, .94, .84, .06, .84), line(.34, .32, .31, .7), line(.5, .32, .5, .7), line(.66, .32, .69, .7),
		dot(.325, .56), dot(.5, .42), dot(.68, .6),
	},
	// A curve in a frame.
	PictogramProcessor: {frame(.06, .2, .94, .8), line(.16, .66, .34, .62, .48, .36, .62, .56, .84, .4)},
	// A flat box with a row of square sockets.
	PictogramSwitch: {frame(.04, .3, .96, .7), frame(.14, .42, .28, .58), frame(.36, .42, .5, .58), frame(.58, .42, .72, .58), dot(.85, .5)},
	// In at one side, out at the other, changed between.
	PictogramConverter: {frame(.06, .22, .94, .78), line(.16, .62, .42, .62, .58, .38, .84, .38)},
	// A loudspeaker's triangle.
	PictogramAmplifier: {line(.2, .12, .86, .5, .2, .88, .2, .12)},
	// An aerial with two waves.
	PictogramRadio: {line(.5, .92, .5, .5), dot(.5, .46), arc(.5, .46, .22, -.78, .78), arc(.5, .46, .4, -.78, .78)},
	// A speech bubble.
	PictogramIntercom: {line(.08, .16, .92, .16, .92, .68, .5, .68, .32, .88, .32, .68, .08, .68, .08, .16), dot(.34, .42), dot(.5, .42), dot(.66, .42)},
	// A van.
	PictogramBroadcast: {line(.04, .72, .04, .28, .6, .28, .6, .72, .04, .72), line(.6, .42, .8, .42, .96, .58, .96, .72, .6, .72), wheel(.26, .76), wheel(.76, .76)},
	PictogramAnything:  {frame(.14, .2, .86, .8)},
}

func line(xy ...float64) PictogramStroke {
	points := make([]geom.Point, len(xy)/2)
	for i := range points {
		points[i] = geom.Point{X: xy[2*i], Y: xy[2*i+1]}
	}
	return PictogramStroke{Points: points}
}

func frame(left, top, right, bottom float64) PictogramStroke {
	return line(left, top, right, top, right, bottom, left, bottom, left, top)
}

func dot(x, y float64) PictogramStroke {
	return PictogramStroke{Points: ring(geom.Point{X: x, Y: y}, .055, pictogramRoundSteps, 0), Filled: true}
}

func wheel(x, y float64) PictogramStroke {
	return PictogramStroke{Points: ring(geom.Point{X: x, Y: y}, .1, pictogramRoundSteps, 0), Filled: true}
}

// arc is part of a circle about a point, open downwards, from an angle to another off the upright in radians.
func arc(x, y, radius, from, to float64) PictogramStroke {
	var s PictogramStroke
	for n := range pictogramRoundSteps + 1 {
		angle := from + (to-from)*float64(n)/pictogramRoundSteps - math.Pi/2
		s.Points = append(s.Points, geom.Point{X: x, Y: y}.Add(geom.Polar(radius, angle)))
	}
	return s
}

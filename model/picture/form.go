package picture

import "stageloom/model/geom"

// Form is how devices of positions are drawn, and at which scale that changed last: the next view of the plan is arranged after
// it, so that a notch of the wheel in and out does not flicker between two forms. The zero value knows of none.
type Form struct {
	gathering gathering
	known     bool
	// changed is the scale at which the form before was left, 0 for never, and larger tells that it was for a larger one.
	changed float64
	larger  bool
}

// Form is the form of the arrangement.
func (a *Arrangement) Form() Form { return a.form }

// formHeld is by which factor the scale must go back before the form does: more than a notch of a wheel, less than three.
const formHeld = 1.3

// after is the form to take where one would be chosen at a scale without regard to the last.
func (f Form) after(chosen gathering, scale float64) Form {
	if !f.known {
		return Form{gathering: chosen, known: true}
	}
	larger := chosen < f.gathering
	back := f.changed > 0 && larger != f.larger && scale < f.changed*formHeld && scale > f.changed/formHeld
	if chosen == f.gathering || back {
		return f
	}
	return Form{gathering: chosen, known: true, changed: scale, larger: larger}
}

// placed gives every device its box: with rows for what would lie on each other, then with the heads of such positions alone, then
// as dots, whichever has room.
func (a *Arrangement) placed(last Form) []geom.Box {
	if !a.Scene.Gathered || a.Scene.Nameless {
		return a.alone()
	}
	chosen, boxes := inRows, []geom.Box(nil)
	for ; chosen < byThemselves; chosen++ {
		boxes = a.as(chosen)
		if len(a.blocks) == 0 || !a.crowdedOut() {
			break
		}
	}
	if a.form = last.after(chosen, a.Scale); chosen == byThemselves || a.form.gathering != chosen {
		boxes = a.as(a.form.gathering)
	}
	if len(a.blocks) == 0 {
		return a.alone()
	}
	return boxes
}

// as gives every device its box in one form.
func (a *Arrangement) as(form gathering) []geom.Box {
	a.Short = true
	boxes := a.formed()
	if form == byThemselves {
		a.blocks, a.blockOf, a.named = nil, nil, nil
		return boxes
	}
	a.gather(form)
	a.settle(boxes)
	return boxes
}

// alone gives every device a box of its own, or makes all of them dots.
func (a *Arrangement) alone() []geom.Box {
	a.blocks, a.blockOf, a.named, a.Short = nil, nil, nil, false
	boxes := a.deviceBoxes()
	if !a.Dots { // dots stand where their devices stand, however close
		spread(boxes)
		if a.strayed(boxes) {
			boxes = a.dots(boxes)
		}
	}
	return boxes
}

package day

import (
	"strings"
)

// foot draws the buttons, large ones for the steps on site, and returns where the room above them ends.
func (s *sketch) foot() float32 {
	var steps, others []button
	for _, b := range s.view.buttons() {
		if b.step != "" {
			steps = append(steps, b)
		} else {
			others = append(others, b)
		}
	}
	y := s.h - edge - capTall + 6
	s.caps(others, y)
	if len(steps) == 0 {
		return y - 8
	}
	y -= stepTall + 10
	link, _ := s.view.row()
	wide := (s.w - 2*edge - 2*12) / float32(len(steps))
	for i, b := range steps {
		x := edge + float32(i)*(wide+12)
		done := link.Is(b.step)
		words := strings.ToUpper(b.label)
		switch {
		case done && link.Moved:
			words = "✓ " + words + " ?"
		case done:
			words = "✓ " + words
		default:
			words = "not " + b.label
		}
		s.step(b, x, y, wide, words, done)
	}
	return y - 8
}

// step draws a large button: black where the step is done, white with a frame where it is not.
func (s *sketch) step(b button, x, y, wide float32, words string, done bool) {
	if done {
		s.box(x, y, wide, stepTall, ink, 0)
	} else {
		s.box(x, y, wide, stepTall, ground, 4)
	}
	s.spot(x, y, wide, stepTall, b.do)
	colour := colourOn(done)
	f := font{middleType + 5, done}
	s.words(x+18, y+(stepTall-s.height(middle))/2, 40, b.key, middle, colour)
	used := min(s.width(words, f), wide-80)
	s.words(x+max(64, (wide-used)/2), y+(stepTall-s.height(f))/2, wide-80, words, f, colour)
}

// caps draws a row of buttons, each with its key in a cap.
func (s *sketch) caps(list []button, y float32) {
	gap, f := float32(8), font{22, false}
	wanted := make([]float32, len(list))
	sum := float32(0)
	for i, b := range list {
		wanted[i] = s.width(b.key, font{22, true}) + 20 + s.width(b.label, f) + 26
		sum += wanted[i]
	}
	spare := max(0, s.w-2*edge-gap*float32(len(list)-1)-sum) / float32(len(list))
	spare = min(spare, 60)
	x := float32(edge)
	for i, b := range list {
		wide := wanted[i] + spare
		s.box(x, y, wide, capTall, ground, 2)
		s.spot(x, y, wide, capTall, b.do)
		key := s.width(b.key, font{22, true}) + 20
		s.box(x, y, key, capTall, ink, 0)
		s.words(x+10, y+(capTall-s.height(f))/2, key, b.key, font{22, true}, ground)
		s.words(x+key+(wide-key-s.width(b.label, f))/2, y+(capTall-s.height(f))/2, wide-key-4, b.label, f, ink)
		x += wide + gap
	}
}

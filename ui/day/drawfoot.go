package day

// foot draws the buttons, large ones for the steps on site, and returns where the room above them ends.
func (s *sketch) foot() float32 {
	var steps, others []button
	for _, b := range s.view.buttons() {
		if b.large {
			steps = append(steps, b)
		} else {
			others = append(others, b)
		}
	}
	y := s.h - edge - s.capTall() + 6
	s.caps(others, y)
	if len(steps) == 0 {
		return y - 8
	}
	y -= stepTall + 10
	wide := (s.w - 2*edge - 12*float32(len(steps)-1)) / float32(len(steps))
	for i, b := range steps {
		s.step(b, edge+float32(i)*(wide+12), y, wide)
	}
	return y - 8
}

// step draws a large button: black where the step is done, white with a frame where it is not.
func (s *sketch) step(b button, x, y, wide float32) {
	words, done := b.words, b.done
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

// capTall is the height of a small button: in a line check it is pressed in a hurry, with a finger.
func (s *sketch) capTall() float32 {
	if s.view.sheet.checks() {
		return checkCapTall
	}
	return linkCapTall
}

// Type on the small buttons, as large as there is room for.
const mostCapType, leastCapType = 23, 12

// caps draws a row of buttons, each with its key in a cap.
func (s *sketch) caps(list []button, y float32) {
	const gap = 8
	size := float32(mostCapType)
	wanted, spare := s.capWidths(list, size, gap)
	for spare < 0 && size > leastCapType {
		size--
		wanted, spare = s.capWidths(list, size, gap)
	}
	spare = min(spare/float32(len(list)), 60)
	key, label := font{size, true}, font{size, false}
	x := float32(edge)
	for i, b := range list {
		wide := wanted[i] + spare
		s.box(x, y, wide, s.capTall(), ground, 2)
		s.spot(x, y, wide, s.capTall(), b.do)
		keyed := s.width(b.key, key) + 20
		s.box(x, y, keyed, s.capTall(), ink, 0)
		top := y + (s.capTall()-s.height(label))/2
		s.words(x+10, top, keyed, b.key, key, ground)
		used := min(s.width(b.label, label), wide-keyed-8)
		s.words(x+keyed+(wide-keyed-used)/2, top, wide-keyed-8, b.label, label, ink)
		x += wide + gap
	}
}

// capWidths are the widths that buttons want in a size of type, and what room that leaves.
func (s *sketch) capWidths(list []button, size, gap float32) (wanted []float32, spare float32) {
	spare = s.w - 2*edge - gap*float32(len(list)-1)
	for _, b := range list {
		wide := s.width(b.key, font{size, true}) + 20 + s.width(b.label, font{size, false}) + 18
		wanted, spare = append(wanted, wide), spare-wide
	}
	return wanted, spare
}

package day

import "fmt"

const listTall = 84

// drawSwaps lists what can take the place of the chosen cable, the best first.
func (s *sketch) drawSwaps() {
	v := s.view
	link, _ := v.row()
	y := s.head(TallyOf(v.assessment.Plan).String(), fmt.Sprintf("%d of %d", v.chosen+1, len(v.spares)))
	title := fmt.Sprintf("%s: instead of %s", link.Name, v.cableWords())
	s.words(edge, y, s.w-2*edge, title, font{38, true}, ink)
	y += s.height(font{38, true})
	s.words(edge, y, s.w-2*edge, "The best first: with the wanted margin, free in the stock, then from the least important link.", body, ink)
	y += s.height(body) + 8
	if touched := v.touched(); touched != "" {
		s.words(edge, y, s.w-2*edge, touched, font{body.size, true}, ink)
		y += s.height(body) + 8
	}
	s.list(y, func(i int) (name, gives string) {
		spare := SpareOf(v.assessment.Plan, v.spares[i], v.units)
		return spare.Name, spare.Gives
	})
}

// drawFinds lists the links that answer what was typed.
func (s *sketch) drawFinds() {
	v := s.view
	y := s.head(TallyOf(v.assessment.Plan).String(), fmt.Sprintf("%d of %d links", len(v.found), len(v.round)))
	s.box(edge, y+4, s.w-2*edge, s.height(large)+8, ground, 4)
	s.words(edge+16, y+8, s.w-2*edge-32, v.typed+"▏", large, ink)
	y += s.height(large) + 18
	if len(v.found) == 0 {
		s.words(edge, y, s.w-2*edge, "No link, no device at an end and no cable is called so.", plain, ink)
	} else if v.typed == "" {
		s.words(edge, y, s.w-2*edge, "Type a link, a device at its end or the tag of a cable.", body, ink)
		y += s.height(body) + 6
	}
	s.list(y, func(i int) (name, gives string) {
		link, _ := v.assessment.Plan.Link(v.found[i].Link)
		done := "nothing done yet"
		if link.Done != "" {
			done = link.Done
		}
		return v.found[i].Name, v.found[i].Words + ", " + done
	})
}

// list draws the rows about the chosen one; a tap chooses, a second one takes.
func (s *sketch) list(y float32, row func(i int) (name, gives string)) {
	v, bottom := s.view, s.foot()
	n, rows := v.listed(), max(1, int((bottom-y)/listTall))
	first := max(0, min(v.chosen-rows/2, n-rows))
	for i := first; i < min(n, first+rows); i++ {
		chosen := i == v.chosen
		if chosen {
			s.box(edge, y, s.w-2*edge, listTall-4, ink, 0)
		} else {
			s.box(edge, y, s.w-2*edge, listTall-4, ground, 2)
		}
		s.spot(edge, y, s.w-2*edge, listTall-4, func() {
			if v.chosen == i {
				v.take()
				return
			}
			v.chosen = i
			v.Refresh()
		})
		name, gives := row(i)
		s.words(edge+16, y+3, s.w-2*edge-32, name, middle, colourOn(chosen))
		s.words(edge+16, y+2+s.height(middle), s.w-2*edge-32, gives, body, colourOn(chosen))
		y += listTall
	}
}

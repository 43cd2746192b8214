package day

import (
	"fmt"
	"image/color"
	"strings"
)

// Heights of a cable's row, and of the line under it that says what joins it to the next.
const (
	cableTall = 38
	joinTall  = 31
)

// column is where the words of the cables stand.
type column struct {
	tag   float32 // width of the longest tag
	joins bool    // what joins a cable to the next has a line of its own
	more  bool    // there are more cables than rows
}

// cables draws the cables from y down to a bottom at most, and returns where they end: with a line for each join where there
// is room for it, else in as many rows about the chosen one as there is room for.
func (s *sketch) cables(p Page, y, bottom float32) float32 {
	n := len(p.Cables)
	if n == 0 {
		return y
	}
	rows := max(1, min(n, int((bottom-y)/cableTall)))
	c := column{joins: float32(n)*cableTall+float32(n-1)*joinTall <= bottom-y, more: rows < n}
	for _, cable := range p.Cables {
		c.tag = max(c.tag, min(s.width(cable.Tag, middle), 300))
	}
	first := max(0, min(s.view.order-1-rows/2, n-rows))
	for i, cable := range p.Cables[first : first+rows] {
		s.cable(cable, y, c)
		switch {
		case i == 0 && first > 0:
			s.moreCables(y, fmt.Sprintf("▲ %d more", first), cable)
		case i == rows-1 && first+rows < n:
			s.moreCables(y, fmt.Sprintf("▼ %d more", n-first-rows), cable)
		}
		y += cableTall
		if c.joins && cable.Then != "" {
			s.words(edge+64, y, s.w-2*edge-64, cable.Then, body, ink)
			y += joinTall
		}
	}
	return y
}

// moreCables says at the right edge of a row that the list goes on.
func (s *sketch) moreCables(y float32, text string, cable Cable) {
	s.wordsRight(s.w-edge-10, y+(cableTall-s.height(body))/2, moreWide-20, text, body, colourOn(cable.Order == s.view.order))
}

const moreWide = 170

func colourOn(chosen bool) color.Color {
	if chosen {
		return ground
	}
	return ink
}

// cable draws one row: the chosen one white on black.
func (s *sketch) cable(cable Cable, y float32, c column) {
	chosen := cable.Order == s.view.order
	if chosen {
		s.box(edge, y, s.w-2*edge, cableTall, ink, 0)
	}
	s.spot(edge, y, s.w-2*edge, cableTall, func() { s.view.choose(cable.Order) })
	colour := colourOn(chosen)
	top, low := y+(cableTall-s.height(plain))/2, y+(cableTall-s.height(body))/2
	x, end := float32(edge+12), s.w-edge-12
	if c.more {
		end -= moreWide
	}
	s.words(x, top, 50, fmt.Sprint(cable.Order), plain, colour)
	x += 52
	s.words(x, top, c.tag, cable.Tag, middle, colour)
	x += c.tag + 22 + lengthWide
	s.wordsRight(x, top, lengthWide, cable.Length, plain, colour)
	x += 22
	if !c.joins && cable.Then != "" {
		then := s.wordsRight(end, low, 330, cable.Then, body, colour)
		end -= then + 22
	}
	if cable.Bad != "" {
		x += s.words(x, low, end-x, strings.ToUpper(cable.Bad), strong, colour) + 12
	}
	kind := cable.Kind
	if cable.Place != "" {
		kind += ", " + cable.Place
	}
	s.words(x, low, end-x, kind, body, colour)
}

const lengthWide = 128

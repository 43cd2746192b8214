package day

import (
	"fmt"
)

// Distances in units of the full window.
const (
	edge     = 20
	stepTall = 64

	linkCapTall  = 52
	checkCapTall = 60
)

// fewCables leave room between the parts of a page.
const fewCables = 3

var (
	huge   = font{hugeType, true}
	large  = font{largeType, true}
	middle = font{middleType, true}
	plain  = font{middleType, false}
	strong = font{bodyType, true}
	body   = font{bodyType, false}
)

// drawEmpty says what to do first where there is no link.
func (s *sketch) drawEmpty() {
	top := s.head("", "")
	y := top + 40
	for _, line := range s.lines("This plan has no link yet.", large, s.w-2*edge, 2) {
		s.words(edge, y, s.w-2*edge, line, large, ink)
		y += s.height(large)
	}
	for _, line := range s.lines("Put devices on the plan, draw links from port to port and pick their cables. Here they are then laid, joined and tested, one after the other.", plain, s.w-2*edge, 4) {
		s.words(edge, y+10, s.w-2*edge, line, plain, ink)
		y += s.height(plain)
	}
	s.foot()
}

// head draws what is done of the whole plan, and where in the round the link stands. It returns where the page begins.
func (s *sketch) head(left, right string) float32 {
	wide := s.wordsRight(s.w-edge, 12, s.w/2, right, strong, ink)
	s.words(edge, 12, s.w-3*edge-wide, left, strong, ink)
	y := 12 + s.height(strong) + 6
	s.box(edge, y, s.w-2*edge, 3, ink, 0)
	return y + 6
}

// tallyWords say what is done of the whole plan, and how the line check of the act stands that was shown last.
func (v *View) tallyWords() string {
	said := TallyOf(v.assessment.Plan).String()
	if tally := v.assessment.Patch.CheckTally(v.actNow()); tally.Begun() {
		tally.Left, tally.Cleared = 0, 0 // there is room for what is bad
		said += " · line check " + tally.String()
	}
	return said
}

func (v *View) roundWords() string {
	said := fmt.Sprintf("link %d of %d", v.place+1, len(v.round))
	if v.onlyLeft {
		return said + ", only what is left to do"
	}
	return said
}

// drawPage draws one link.
func (s *sketch) drawPage(p Page) {
	y := s.head(s.view.tallyWords(), s.view.roundWords())
	gap := float32(0)
	if len(p.Cables) <= fewCables {
		gap = 11 // parts stand apart where there is room for it
	}
	y = s.title(p, y)
	y = s.ends(p, y+gap)
	bottom := s.message(s.foot())
	y = s.cables(p, y+gap, bottom-s.leastWatch(p))
	s.watch(p, y+4+gap, bottom)
}

// title draws the link's name, and its grade by word, figure and line.
func (s *sketch) title(p Page, y float32) float32 {
	tall := s.height(huge)
	right := s.w - edge
	margin := s.wordsRight(right, y+tall-s.height(large)-6, s.w/3, p.Margin, large, ink)
	if margin > 0 {
		margin += 24
	}
	verdict := s.wordsRight(right-margin, y+tall-s.height(large)-6, s.w/3, p.Verdict, large, ink)
	s.words(edge, y, right-margin-verdict-2*edge-10, p.Name, huge, ink)
	y += tall - 6
	sample := max(260, margin+verdict)
	s.gradeLine(right-sample, y, sample, 22, p.Grade)
	s.words(edge, y, right-sample-2*edge, p.About, body, ink)
	y += s.height(body) + 2
	if p.Basis != "" {
		s.wordsRight(right, y-6, sample+200, p.Basis, body, ink)
	}
	return y
}

// ends draws from where to where, and how far that is.
func (s *sketch) ends(p Page, y float32) float32 {
	label := max(s.width("from", plain), s.width("to", plain)) + 18
	for i, end := range []End{p.From, p.To} {
		s.words(edge, y, label, []string{"from", "to"}[i], plain, ink)
		room := s.w - 2*edge - label
		if i == 0 && p.Basis != "" {
			room -= s.width(p.Basis, body) + edge // it hangs down beside the first line
		}
		where := ""
		if end.Position != "" {
			where = ", at " + end.Position
		}
		name := s.fit(end.Device, middle, room*0.6)
		used := s.words(edge+label, y, room*0.6, name, middle, ink)
		s.words(edge+label+used, y, room-used, ", port "+end.Port+where, plain, ink)
		y += s.height(plain)
	}
	end := s.w - edge - s.wordsRight(s.w-edge, y, s.w/3, p.Caution, strong, ink)
	x := edge + s.words(edge, y, end-2*edge, p.Run, body, ink)
	if p.Missing != "" {
		s.words(x+18, y, end-edge-x-18, p.Missing, strong, ink)
	}
	return y + s.height(body) + 4
}

// leastWatch is the room that what to watch wants at least.
func (s *sketch) leastWatch(p Page) float32 {
	return float32(min(len(p.Watch), 2)) * (s.height(body) + 2)
}

// watch draws what to watch as far as there is room, and says how much more there is.
func (s *sketch) watch(p Page, y, bottom float32) {
	tall := s.height(body)
	label := float32(0)
	for _, w := range p.Watch {
		label = max(label, s.width(w.Word, strong))
	}
	label += 2 * 8
	room := s.w - 2*edge - label - 14
	for i, w := range p.Watch {
		free, rest := int((bottom-y)/tall), len(p.Watch)-i
		switch {
		case free < 1:
			return
		case free == 1 && rest > 1:
			s.words(edge, y, s.w-2*edge, fmt.Sprintf("and %d more to watch: Escape, then the card says all", rest), strong, ink)
			return
		}
		lines := s.lines(w.Text, body, room, min(3, free-one(rest > 1)))
		loud := w.Word == "STOP" || w.Word == "MOVED"
		if loud {
			s.box(edge, y, label, tall, ink, 0)
		} else {
			s.box(edge, y, label, tall, ground, 2)
		}
		s.words(edge+8, y, label, w.Word, strong, colourOn(loud))
		for _, line := range lines {
			s.words(edge+label+14, y, room, line, body, ink)
			y += tall
		}
		y += 3
	}
}

// message draws what was done last above the foot, and returns where the room above it ends.
func (s *sketch) message(bottom float32) float32 {
	if s.view.said == "" {
		return bottom
	}
	lines := s.lines(s.view.said, strong, s.w-2*edge-36, 2)
	tall := float32(len(lines))*s.height(strong) + 12
	y := bottom - tall
	s.box(edge, y, s.w-2*edge, tall-4, ground, 3)
	for i, line := range lines {
		s.words(edge+18, y+4+float32(i)*s.height(strong), s.w-2*edge-36, line, strong, ink)
	}
	return y - 6
}

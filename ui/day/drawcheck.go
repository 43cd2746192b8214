package day

import (
	"fmt"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// checkButtons are those of the line check, the results first.
func (v *View) checkButtons() []button {
	back := button{key: "Esc", label: "Back", do: v.back}
	undo := button{runes: []rune("uU"), key: "U", label: "Undo", do: v.takeBack}
	cleared := button{runes: []rune("cC"), key: "C", label: "Cleared", do: v.clear}
	switch {
	case v.sheet == noting:
		return []button{{key: "Enter", label: "Keep the note", do: v.take}, back}
	case v.sheet == faults && v.listed() == 0:
		return []button{undo, back}
	case v.sheet == faults:
		return []button{cleared, undo, {key: "Enter", label: "Go there", do: v.take}, back}
	}
	list := v.resultButtons()
	if len(list) > 0 {
		list = append(list, cleared,
			button{runes: []rune("tT"), key: "T", label: "Note", do: v.openNote}, undo,
			button{key: "←", label: "Back", do: func() { v.goCheck(-1) }},
			button{key: "→", label: "Skip", do: func() { v.goCheck(1) }})
	}
	if len(v.assessment.Patch.Shown()) > 1 {
		list = append(list,
			button{key: "PgUp", label: "Act", do: func() { v.nextAct(-1) }},
			button{key: "PgDn", label: "Act", do: func() { v.nextAct(1) }})
	}
	return append(list, button{runes: []rune("fF"), key: "F", label: "Faults", do: v.openFaults},
		button{runes: []rune("lL"), key: "L", label: "Links", do: v.openLinks},
		button{key: "Esc", label: "Plan", do: v.back})
}

// resultButtons are the four results, the one that was heard last marked; none where there is no input.
func (v *View) resultButtons() (list []button) {
	turn, _, found := v.turn()
	if !found {
		return nil
	}
	last, _ := v.assessment.Plan.Checked(v.check.act, turn.Line.Input.ID)
	stands := last.Cleared == "" && v.assessment.Patch.ChangedSince(turn.Line, last) == ""
	for _, result := range plan.Heard() {
		key := keyOf(result)
		b := button{
			runes: []rune(key + strings.ToLower(key)), key: key, label: result, do: func() { v.hear(result) },
			large: true, done: last.Result == result && stands, words: strings.ToUpper(result),
		}
		if b.done {
			b.words = "✓ " + b.words
		}
		list = append(list, b)
	}
	return list
}

// checkHead draws how the line check of the act stands, and what stands at the right.
func (s *sketch) checkHead(right string) float32 {
	tally := s.view.assessment.Patch.CheckTally(s.view.actNow())
	return s.head("Line check: "+tally.String(), right)
}

// drawCheck draws one input of a line check.
func (s *sketch) drawCheck() {
	v := s.view
	turn, of, found := v.turn()
	if !found {
		s.drawNoCheck()
		return
	}
	p := CheckPageOf(v.assessment, v.actNow(), turn, of, v.Now())
	right := p.Turn
	if p.Planned != "" {
		right = "planned " + p.Planned + " · " + right
	}
	left := v.assessment.Patch.CheckTally(v.actNow()).String()
	if len(v.assessment.Patch.Shown()) > 1 { // a long name gives way, not how it stands
		right = " · " + right
		room := min(s.w/2, s.w-3*edge-s.width(left, strong)) - s.width(right, strong) - 4
		right = s.fit(p.Act, strong, room) + right
	}
	y := s.head(left, right)
	y = s.called(p, y)
	bottom := s.message(s.foot())
	least := s.leastWatch(Page{Watch: p.Watch})
	y = s.chain(p.Chain, y+8, bottom-least)
	s.watch(Page{Watch: p.Watch}, y+8, bottom)
}

// drawNoCheck says what to do where the act has nothing to hear.
func (s *sketch) drawNoCheck() {
	v := s.view
	y := s.head("", "") + 40
	title, then := "This plan has no input yet.", "Begin the input list in the table of inputs, Ctrl 5, or import one. Here it is then heard, one input after the other."
	if act := v.actNow(); v.assessment.Plan.Inputs.Len() > 0 {
		title, then = "No input is used here.", plan.ClippedTo(patchName(act), 60)+" uses no input of the list: there is nothing to hear. The table of the patch, Ctrl 7, says what an act uses."
	}
	for _, line := range s.lines(title, large, s.w-2*edge, 2) {
		s.words(edge, y, s.w-2*edge, line, large, ink)
		y += s.height(large)
	}
	for _, line := range s.lines(then, plain, s.w-2*edge, 4) {
		s.words(edge, y+10, s.w-2*edge, line, plain, ink)
		y += s.height(plain)
	}
	s.message(s.foot())
}

func patchName(act *patch.Act) string {
	if act.House() {
		return "The house"
	}
	return act.Act.Name
}

// call is the type of a number and a name that is called out.
var call = font{88, true}

// called draws number and name as large as they go, below them 48 V, what it is, and what was heard.
func (s *sketch) called(p CheckPage, y float32) float32 {
	number := fmt.Sprint(p.Number)
	tall := s.height(call)
	wide := s.width(number, call) + 32
	s.box(edge, y+2, wide, tall, ink, 0)
	s.words(edge+16, y+2, wide, number, call, ground)
	x := edge + wide + 20
	lines, f := s.nameLines(p.Name, s.w-edge-x)
	top := y + 2 + max(0, (tall-float32(len(lines))*s.height(f))/2)
	for _, line := range lines {
		s.words(x, top, s.w-edge-x, line, f, ink)
		top += s.height(f)
	}
	y = max(y+tall, top) + 10
	phantom := p.PhantomWords()
	wide = s.width(phantom, middle) + 24
	if p.Phantom {
		s.box(edge, y, wide, s.height(middle)+6, ink, 0)
	} else {
		s.box(edge, y, wide, s.height(middle)+6, ground, 3)
	}
	s.words(edge+12, y+3, wide, phantom, middle, colourOn(p.Phantom))
	heard := s.wordsRight(s.w-edge, y+3, s.w*0.5, strings.ToUpper(p.Result)+strings.TrimPrefix(p.Heard, p.Result), middle, ink)
	s.words(edge+wide+16, y+3, s.w-2*edge-wide-16-heard-24, p.About, plain, ink)
	return y + s.height(middle) + 12
}

// nameLines breaks a name into as few lines as it needs, in the largest type in which there is room for all of it.
func (s *sketch) nameLines(name string, room float32) ([]string, font) {
	for _, f := range []font{call, huge} {
		if s.width(name, f) <= room {
			return []string{name}, f
		}
	}
	for _, f := range []font{large, middle} {
		if lines := s.broken(name, f, room); len(lines) <= mostNameLines[f] {
			return lines, f
		}
	}
	lines := s.broken(name, strong, room)
	if len(lines) > mostNameLines[strong] {
		lines = s.lines(name, strong, room, mostNameLines[strong])
	}
	return lines, strong
}

// mostNameLines is how many lines of a name there are, by type.
var mostNameLines = map[font]int{large: 2, middle: 4, strong: 5}

// broken breaks a text into lines between words, and within a word that is wider than a line.
func (s *sketch) broken(text string, f font, room float32) []string {
	var words []string
	for _, word := range strings.Fields(text) {
		for s.width(word, f) > room && len([]rune(word)) > 1 {
			letters := []rune(word)
			n := max(1, min(len(letters)-1, int(room/s.width(word, f)*float32(len(letters)))))
			for n > 1 && s.width(string(letters[:n]), f) > room {
				n--
			}
			words, word = append(words, string(letters[:n])), string(letters[n:])
		}
		words = append(words, word)
	}
	return s.lines(strings.Join(words, " "), f, room, len(words)+1)
}

// chain draws the way of an input as far as there is room, and says how much more there is.
func (s *sketch) chain(chain []Step, y, bottom float32) float32 {
	label := s.width("channel", body) + 22
	name := float32(0)
	for _, step := range chain {
		name = max(name, min(s.width(step.Name, middle), s.w*0.45))
	}
	for i, step := range chain {
		if y+2*cableTall > bottom && i < len(chain)-1 {
			s.words(edge, y, s.w-2*edge, fmt.Sprintf("and %d more on its way: Escape, then the card says all", len(chain)-i), strong, ink)
			return y + cableTall
		}
		low := y + (s.height(middle)-s.height(body))*0.75
		s.words(edge, low, label, step.Label, body, ink)
		s.words(edge+label, y, name, step.Name, middle, ink)
		x := edge + label + name + 22
		s.words(x, low, s.w-edge-x, step.Detail, body, ink)
		y += cableTall
	}
	return y
}

// drawFaults lists the faults, the open ones first.
func (s *sketch) drawFaults() {
	v := s.view
	open, cleared := len(v.check.open), len(v.check.cleared)
	y := s.checkHead(fmt.Sprintf("%d open, %d cleared", open, cleared))
	s.words(edge, y, s.w-2*edge, "Faults of all acts", font{38, true}, ink)
	y += s.height(font{38, true}) + 4
	if open+cleared == 0 {
		s.words(edge, y, s.w-2*edge, "No input was dead, noisy or wrong.", plain, ink)
	}
	now := v.Now()
	s.list(y, func(i int) (name, gives string) {
		if i < open {
			return FaultRow(v.assessment.Patch, v.check.open[i], now)
		}
		return FaultRow(v.assessment.Patch, v.check.cleared[i-open], now)
	})
}

// drawNote draws what is typed as a note.
func (s *sketch) drawNote() {
	y := s.checkHead("")
	s.words(edge, y, s.w-2*edge, s.view.noteTitle(), font{38, true}, ink)
	y += s.height(font{38, true}) + 4
	lines := s.broken(s.view.check.note+"▏", plain, s.w-2*edge-32)
	most := 6
	if len(lines) > most {
		lines = lines[len(lines)-most:] // what is typed now
	}
	s.box(edge, y, s.w-2*edge, float32(len(lines))*s.height(plain)+16, ground, 4)
	for _, line := range lines {
		s.words(edge+16, y+8, s.w-2*edge-32, line, plain, ink)
		y += s.height(plain)
	}
	s.foot()
}

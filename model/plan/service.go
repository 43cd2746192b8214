package plan

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

var startsWithDay = regexp.MustCompile(`^[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}( |$)`)

// Line is the line of a history in words: 2031-05-02 near plug replaced (workshop). [ReadService] reads it.
func (r Service) Line() string {
	line := r.Day + " " + r.Work
	if r.By != "" || strings.HasSuffix(r.Work, ")") {
		line += " (" + r.By + ")"
	}
	return line
}

// ReadService reads a line of a history: the day, as 2031-05-02, what was done, and in brackets at the end by whom, where that is
// told. Its error ends a sentence that begins with the line.
func ReadService(line string) (s Service, err error) {
	line = strings.TrimSpace(line)
	if !startsWithDay.MatchString(line) {
		return s, errors.New("does not begin with a day: write it as 2031-05-02 near plug replaced (workshop)")
	}
	s.Day, s.Work, _ = strings.Cut(line, " ")
	if wrong := NoSuchDay(s.Day); wrong != "" {
		return s, fmt.Errorf("names a day that is not: %s", wrong)
	}
	s.Work = strings.TrimSpace(s.Work)
	if at := lastBracket(s.Work); at >= 0 {
		s.By = strings.TrimSpace(s.Work[at+1 : len(s.Work)-1])
		s.Work = strings.TrimSpace(s.Work[:at])
	}
	if s.Work == "" {
		return s, errors.New("does not say what was done")
	}
	return s, nil
}

// lastBracket is where the bracket opens that a text ends with; -1 where there is none behind a space.
func lastBracket(text string) int {
	if !strings.HasSuffix(text, ")") {
		return -1
	}
	depth := 0
	for at := len(text) - 1; at >= 0; at-- {
		switch text[at] {
		case ')':
			depth++
		case '(':
			depth--
		}
		if depth == 0 {
			if at > 0 && text[at-1] != ' ' {
				return -1
			}
			return at
		}
	}
	return -1
}

// History is what was done to a reel, the first day first.
func (p *Plan) History(reel ReelID) (lines []Service) {
	for line := range p.Services.All() {
		if line.Reel == reel {
			lines = append(lines, line)
		}
	}
	slices.SortStableFunc(lines, func(a, b Service) int { return cmp.Compare(a.Day, b.Day) })
	return lines
}

// SetHistory makes these the history of a reel; of one day they stay in their order. The lines' own ids and reels are not
// looked at.
func (e *Edit) SetHistory(reel ReelID, lines []Service) {
	var ids []ServiceID
	for _, old := range e.next.History(reel) {
		ids = append(ids, old.ID)
	}
	for _, id := range ids[min(len(lines), len(ids)):] {
		Drop[Service](e, Key(id))
	}
	ids = ids[:min(len(lines), len(ids))]
	for len(ids) < len(lines) {
		line := lines[len(ids)]
		line.Reel = reel
		ids = append(ids, e.AddService(line))
	}
	slices.Sort(ids)
	lines = slices.Clone(lines)
	slices.SortStableFunc(lines, func(a, b Service) int { return cmp.Compare(a.Day, b.Day) })
	for i, line := range lines {
		line.ID, line.Reel = ids[i], reel
		Put(e, line)
	}
}

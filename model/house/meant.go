package house

import (
	"slices"
	"strconv"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Side is what is done with the cables that somebody types or scans.
type Side int

// The sides: a show takes from the house, a show gives back, the house receives whatever its show's plan says.
const (
	ToTake Side = iota
	ToGiveBack
	ToReceive
)

// Typed is what was typed or scanned, on which day, where lengths are shown in these units.
type Typed struct {
	Text  string
	Day   string
	Units words.Units
}

// Meant is which cables a text means, for one side, and in words what of it cannot be.
type Meant struct {
	// Wants are rows of the house for a show, Returns rows of the plan for the house, Came what the house receives.
	Wants   []Want
	Returns []Return
	Came    []Received
	// Found are rows of the house that were missing, in repair or written off and have come.
	Found []plan.ReelID
	// Not says of what is meant and cannot be why not, a sentence each.
	Not []string
	// Instead are texts that can be typed instead.
	Instead []string
}

// Nothing reports that nothing is to be done.
func (m Meant) Nothing() bool {
	return len(m.Wants)+len(m.Returns)+len(m.Came)+len(m.Found) == 0
}

// Count is how many cables are meant.
func (m Meant) Count() (count int) {
	for _, want := range m.Wants {
		count += want.Quantity
	}
	for _, back := range m.Returns {
		count += back.Quantity
	}
	for _, came := range m.Came {
		count += came.Quantity
	}
	return count + len(m.Found)
}

// Meant reads what a text means: a tag in any capitals or the code of a label, several, a range of tags, a case, a quantity by
// length, a piece that several are tied into, all that the links lay, all of this show or of another. A plan is the one whose
// show takes and gives back.
func (s *Stock) Meant(side Side, p *plan.Plan, typed Typed) Meant {
	r := &reader{Stock: s, plan: p, side: side, typed: typed, done: map[plan.ReelID]bool{}}
	text := strings.Join(strings.Fields(typed.Text), " ")
	const longest = 4000
	switch {
	case len(text) > longest:
		r.not("That is too much at once: type up to " + strconv.Itoa(longest) + " signs")
		return r.out
	case text == "":
		r.not("Type or scan a tag. A case, a range such as R101–R120, 3 x 10 m and all laid are understood too")
		return r.out
	}
	if !r.phrase(text) && !r.list(text) {
		r.unknown(text)
	}
	return r.out
}

// reader reads one text.
type reader struct {
	*Stock
	plan  *plan.Plan
	side  Side
	typed Typed
	// shows are the identities of those that are meant, where the text names one.
	shows  []string
	wished map[plan.ReelID]int
	where  map[plan.ReelID][]Whereabouts
	done   map[plan.ReelID]bool
	out    Meant
}

func (r *reader) not(sentence string) {
	if sentence += "."; !slices.Contains(r.out.Not, sentence) {
		r.out.Not = append(r.out.Not, sentence)
	}
}

// instead offers texts, each once, as many as fit a line.
func (r *reader) instead(texts ...string) {
	const most = 6
	for _, text := range texts {
		if len(r.out.Instead) < most && !slices.Contains(r.out.Instead, text) {
			r.out.Instead = append(r.out.Instead, text)
		}
	}
}

// phrase reads a text that is one of what can be said, and reports whether it is.
func (r *reader) phrase(text string) bool {
	for _, read := range []func(string) bool{r.tag, r.code, r.all, r.box, r.piece, r.ofShow, r.quantity, r.span} {
		if read(text) {
			return true
		}
	}
	return false
}

// list reads several, parted by commas or semicolons, or by blanks where each is a tag or a range.
func (r *reader) list(text string) bool {
	parts := strings.FieldsFunc(text, func(sign rune) bool { return sign == ',' || sign == ';' })
	if len(parts) < 2 {
		parts = strings.Fields(text)
		for _, part := range parts {
			if len(parts) < 2 || !r.isTag(part) && !isSpan(part) {
				return false
			}
		}
	}
	for _, part := range parts {
		if part = strings.TrimSpace(part); part != "" && !r.phrase(part) {
			r.unknown(part)
		}
	}
	return true
}

// rows are those that can be meant: of the plan what it has of the house, else the house's.
func (r *reader) rows() []plan.Reel {
	if r.side == ToGiveBack {
		return slices.DeleteFunc(slices.Collect(r.plan.Reels.All()), func(row plan.Reel) bool { return row.Taking == "" })
	}
	return slices.Collect(r.Plan.Reels.All())
}

// of is the plan that the rows are of.
func (r *reader) of() *plan.Plan {
	if r.side == ToGiveBack {
		return r.plan
	}
	return r.Plan
}

// those are the rows of which something is so, in the order of people.
func (r *reader) those(is func(plan.Reel) bool) []plan.Reel {
	rows := slices.DeleteFunc(r.rows(), func(row plan.Reel) bool { return !is(row) })
	words.SortNatural(rows, func(row *plan.Reel) string { return row.Tag }, func(a, b *plan.Reel) int { return strings.Compare(string(a.ID), string(b.ID)) })
	return rows
}

// allTagged are the rows of a tag, capitals or not.
func allTagged(p *plan.Plan, tag string) (rows []plan.Reel) {
	for row := range p.Reels.All() {
		if row.Tag != "" && strings.EqualFold(row.Tag, tag) {
			rows = append(rows, row)
		}
	}
	return rows
}

func (r *reader) isTag(text string) bool {
	return len(allTagged(r.Plan, text))+len(allTagged(r.plan, text)) > 0
}

// tag reads a tag of the house or of the plan.
func (r *reader) tag(text string) bool {
	if !r.isTag(text) {
		return false
	}
	rows := r.those(func(row plan.Reel) bool { return row.Tag != "" && strings.EqualFold(row.Tag, text) })
	ours := allTagged(r.Plan, text)
	switch {
	case len(rows) == 1:
		r.add(rows[0], 0)
	case len(rows) > 1:
		r.not(words.Counted(len(rows), "row bears", "rows bear") + " the tag " + plan.Clipped(rows[0].Tag) + ": mark the one that is meant in the list")
	case len(ours) > 0:
		r.not(plan.Clipped(ours[0].Tag) + " is not with this show: " + r.placed(ours[0]))
	default:
		own := allTagged(r.plan, text)[0]
		if _, hired := own.Lender(); hired {
			r.not(plan.Clipped(own.Tag) + " is hired for this show, not the house's")
			break
		}
		r.not(plan.Clipped(own.Tag) + " is this plan's own, not the house's")
	}
	return true
}

// unknown says that a text means nothing, and what is like it.
func (r *reader) unknown(text string) {
	r.not("Nothing of the house's here is called " + plan.Clipped(text))
	lower := strings.ToLower(text)
	var begin, hold []string
	add := func(name string) {
		switch at := strings.Index(strings.ToLower(name), lower); {
		case name == "" || at < 0:
		case at == 0:
			begin = append(begin, name)
		default:
			hold = append(hold, name)
		}
	}
	for _, row := range r.those(func(plan.Reel) bool { return true }) {
		add(row.Tag)
		add(row.TiedInto)
	}
	for box := range r.of().Cases.All() {
		add(box.Name)
	}
	r.instead(begin...)
	r.instead(hold...)
}

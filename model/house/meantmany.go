package house

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

var (
	manyOf   = regexp.MustCompile(`^([0-9]{1,5}) ?[x×*X] ?(.+)$`)
	fromTo   = regexp.MustCompile(`^(.*?)([0-9]{1,9}) ?(?:-|–|—|…|\.{2,3}|to) ?(.*?)([0-9]{1,9})$`)
	numbered = regexp.MustCompile(`^(.*?)([0-9]{1,9})$`)
)

// Many reads how many are asked for in front of something, as in "3 x 10 m", and reports whether the text says it.
func Many(text string) (count int, of string, said bool) {
	parts := manyOf.FindStringSubmatch(strings.Join(strings.Fields(text), " "))
	if parts == nil {
		return 1, text, false
	}
	count, _ = strconv.Atoi(parts[1]) // five figures
	return count, parts[2], true
}

// quantity reads "3 x 10 m", "3 × 10 m Cat 6A" and "10 m Cat 6A".
func (r *reader) quantity(text string) bool {
	count, of, said := Many(text)
	length, kind, found := r.lengthOf(of, said)
	if !found {
		return false
	}
	r.some(count, length, kind, false)
	return true
}

// lengthOf reads a length and the words of a kind behind it. A bare figure is a length only behind a number of pieces.
func (r *reader) lengthOf(text string, counted bool) (length float64, kind string, found bool) {
	fields := strings.Fields(text)
	for n := min(4, len(fields)); n > 0; n-- {
		said := strings.Join(fields[:n], " ")
		length, err := quantity.ReadLength(said, r.typed.Units.Length)
		if err != nil || !counted && !strings.ContainsFunc(said, func(sign rune) bool { return sign > '9' || sign == '\'' || sign == '"' }) {
			continue
		}
		return length, strings.Join(fields[n:], " "), true
	}
	return 0, "", false
}

// some means a number of equal cables of a length and a kind: those without tags first, the good before the suspect.
func (r *reader) some(count int, length float64, kind string, exactly bool) {
	called := strings.TrimSpace(r.typed.Units.Metres(length) + " " + plan.Clipped(kind))
	rows := r.ofLength(length, kind, exactly)
	kinds := r.kindsOf(rows)
	switch {
	case count < 1:
		r.not("Say how many, 1 or more")
		return
	case len(rows) == 0:
		r.not(r.noneOf(called))
		r.instead(r.nearest(count, length, kind)...)
		return
	case len(kinds) > 1:
		r.not(fmt.Sprintf("%s is of %s: say which", called, words.And(kinds, 4)))
		for _, name := range kinds {
			r.instead(fmt.Sprintf("%d x %s %s", count, r.typed.Units.Metres(length), name))
		}
		return
	}
	if r.side == ToReceive && !r.oneShow(count, called, rows) {
		return
	}
	r.share(count, called, rows)
}

// share takes a number out of rows, or says how many there are.
func (r *reader) share(count int, called string, rows []plan.Reel) {
	have := make([]int, len(rows))
	there := 0
	for i, row := range rows {
		if !r.done[row.ID] {
			have[i] = r.atHand(row)
			there += have[i]
		}
	}
	if there < count {
		why := ""
		for _, row := range rows {
			if at := r.cannotTake(row, r.free(row)); r.side == ToTake && there == 0 && at != "" && why == "" {
				why = ": " + r.placed(row)
			}
		}
		r.not(fmt.Sprintf("Of %s there %s %d %s, not %d%s", called, words.Plural(there, "is", "are"), there, r.hereWords(), count, why))
		if there > 0 {
			r.instead(fmt.Sprintf("%d x %s", there, called))
		}
		return
	}
	for i, row := range rows {
		if some := min(count, have[i]); some > 0 {
			r.addOne(row, some)
			count -= some
		}
	}
}

func (r *reader) hereWords() string {
	switch r.side {
	case ToGiveBack:
		return "with this show"
	case ToReceive:
		return "out"
	}
	return "in the house"
}

func (r *reader) noneOf(called string) string {
	if r.side == ToGiveBack {
		return "This show has no " + called + " of the house's"
	}
	return "The house has no " + called
}

// atHand is how many of a row this side can have.
func (r *reader) atHand(row plan.Reel) (count int) {
	switch r.side {
	case ToGiveBack:
		return row.Count()
	case ToReceive:
		for _, w := range r.outOf(row) {
			count += w.Quantity
		}
		return count
	}
	if free := r.free(row); r.cannotTake(row, free) == "" {
		return free
	}
	return 0
}

// ofLength lists single cables of a length, as it is or nominally, whose kind bears some words.
func (r *reader) ofLength(length float64, kind string, exactly bool) []plan.Reel {
	const like = 0.05
	rows := r.those(func(row plan.Reel) bool {
		return row.TiedInto == "" && (math.Abs(row.Length-length) < like || !exactly && math.Abs(row.Nominal-length) < like) && r.isKind(row, kind, exactly)
	})
	if kind != "" && !exactly { // what is called exactly so is meant before what is called so among others
		if named := slices.DeleteFunc(slices.Clone(rows), func(row plan.Reel) bool { return !r.isKind(row, kind, true) }); len(named) > 0 {
			rows = named
		}
	}
	slices.SortStableFunc(rows, func(a, b plan.Reel) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(min(1, len(a.Tag)), min(1, len(b.Tag))))
	})
	return rows
}

func rank(row plan.Reel) int {
	switch row.Condition {
	case plan.Faulty:
		return 2
	case plan.Suspect:
		return 1
	}
	return 0
}

func (r *reader) isKind(row plan.Reel, said string, exactly bool) bool {
	name := r.kindName(row)
	if exactly {
		return strings.EqualFold(name, said)
	}
	for _, word := range strings.Fields(strings.ToLower(said)) {
		if !strings.Contains(strings.ToLower(name), word) {
			return false
		}
	}
	return true
}

func (r *reader) kindName(row plan.Reel) string {
	kind, _ := r.of().CableKinds.Get(plan.Key(row.Kind))
	return kind.Name
}

func (r *reader) kindsOf(rows []plan.Reel) (names []string) {
	for _, row := range rows {
		if name := r.kindName(row); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.SortFunc(names, words.Natural)
	return names
}

// nearest offers the lengths that come nearest.
func (r *reader) nearest(count int, length float64, kind string) (texts []string) {
	rows := r.those(func(row plan.Reel) bool { return row.TiedInto == "" && r.isKind(row, kind, false) && r.atHand(row) > 0 })
	slices.SortStableFunc(rows, func(a, b plan.Reel) int {
		return cmp.Compare(math.Abs(a.Length-length), math.Abs(b.Length-length))
	})
	for _, row := range rows {
		if text := fmt.Sprintf("%d x %s %s", count, r.typed.Units.Metres(row.Length), r.kindName(row)); !slices.Contains(texts, text) && len(texts) < 3 {
			texts = append(texts, text)
		}
	}
	return texts
}

// oneShow asks of which show some are received, where several have such and not all come.
func (r *reader) oneShow(count int, called string, rows []plan.Reel) bool {
	has := map[string]int{}
	var names []string
	all := 0
	for _, row := range rows {
		for _, w := range r.outOf(row) {
			if has[w.Show.Name] == 0 {
				names = append(names, w.Show.Name)
			}
			has[w.Show.Name] += w.Quantity
			all += w.Quantity
		}
	}
	if len(names) < 2 || all <= count {
		return true
	}
	var with []string
	for _, name := range names {
		with = append(with, fmt.Sprintf("%d with %s", has[name], plan.Clipped(name)))
		r.instead(fmt.Sprintf("%d x %s of %s", min(count, has[name]), called, name))
	}
	r.not("Of " + called + " there are " + words.And(with, 4) + ": say of which show")
	return false
}

func isSpan(text string) bool { return fromTo.MatchString(text) }

// span reads a range of tags, "R101–R120", "R101..120".
func (r *reader) span(text string) bool {
	parts := fromTo.FindStringSubmatch(text)
	if parts == nil || parts[3] != "" && !strings.EqualFold(parts[1], parts[3]) {
		return false
	}
	from, _ := strconv.Atoi(parts[2]) // nine figures
	to, _ := strconv.Atoi(parts[4])
	from, to = min(from, to), max(from, to)
	in := func(row plan.Reel) bool {
		tag := numbered.FindStringSubmatch(row.Tag)
		if tag == nil || !strings.EqualFold(tag[1], parts[1]) {
			return false
		}
		number, _ := strconv.Atoi(tag[2])
		return from <= number && number <= to
	}
	rows := r.those(in)
	for _, row := range rows {
		r.add(row, 0)
	}
	if len(rows) == 0 {
		r.not("No tag of the house's here lies in " + plan.Clipped(text))
	} else if lost := to - from + 1 - len(rows); lost > 0 && len(r.out.Not) == 0 {
		r.not(fmt.Sprintf("%s of %s %s not here", words.Counted(lost, "number", "numbers"), plan.Clipped(text), words.Plural(lost, "is", "are")))
	}
	return true
}

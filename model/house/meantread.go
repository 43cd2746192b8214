package house

import (
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// code reads the code of a label at an end or a join of a link, as it is printed: the cable that it is stuck on.
func (r *reader) code(text string) bool {
	link, end, _ := strings.Cut(text, " ")
	for there := range r.plan.Links.All() {
		if strings.EqualFold(string(there.ID), link) {
			return r.atEnd(there, strings.ToUpper(end))
		}
	}
	return false
}

// atEnd means the cable of a link at "A", "B", or at a side of a join, "J1A".
func (r *reader) atEnd(link plan.Link, end string) bool {
	laid := r.plan.SegmentsOf(link.ID)
	at := -1
	var join int
	switch {
	case end == "A":
		at = 0
	case end == "B":
		at = len(laid) - 1
	case len(end) > 2 && end[0] == 'J' && len(end) < 6:
		for _, figure := range end[1 : len(end)-1] {
			join = join*10 + int(figure-'0')
		}
		if at = join - 1; end[len(end)-1] == 'B' {
			at = join
		}
	}
	if at < 0 || at >= len(laid) {
		return false
	}
	row, found := r.plan.Reels.Get(plan.Key(laid[at].Reel))
	inHouse, known := r.Plan.Reels.Get(plan.Key(row.HouseReel))
	switch {
	case !found || row.Taking == "":
		r.not("The cable at that label of " + plan.Clipped(link.Name) + " is not the house's")
	case r.side == ToTake:
		r.not("The cable at that label of " + plan.Clipped(link.Name) + " is in this show already")
	case r.side == ToGiveBack:
		r.add(row, 1)
	case known:
		r.shows = []string{r.ours()}
		r.add(inHouse, 1)
		r.shows = nil
	default:
		r.not(NamedIn(r.plan, row, r.typed.Units) + " is in the house's stock no more")
	}
	return true
}

// all reads "all", "all laid" and "all that is out".
func (r *reader) all(text string) bool {
	switch strings.ToLower(text) {
	case "all laid", "laid":
		r.allLaid()
	case "all", "everything", "all out", "all that is out", "all back":
		r.allOut()
	default:
		return false
	}
	return true
}

// allOut means all that this show has of the house's stock.
func (r *reader) allOut() {
	switch r.side {
	case ToTake:
		r.not("All of the stock is never taken at once: type all laid for what the links lay, a case, a range or tags")
		return
	case ToReceive:
		r.shows = []string{r.ours()}
	}
	r.addEach(func(plan.Reel) bool { return true })
	r.shows = nil
	if r.out.Nothing() {
		r.not("This show has nothing of the house's")
	}
}

// addEach means all rows of which something is so; the house receives of them what is out.
func (r *reader) addEach(is func(plan.Reel) bool) {
	for _, row := range r.those(is) {
		if r.side != ToReceive || len(r.outOf(row)) > 0 {
			r.add(row, 0)
		}
	}
}

// allLaid means what the links of the plan lay: for a show that takes, as many of each kind and length as lie there by length
// alone.
func (r *reader) allLaid() {
	if r.side == ToTake {
		r.takeLaid()
		return
	}
	used := r.plan.UsedReels()
	if r.side == ToGiveBack {
		for _, row := range r.those(func(row plan.Reel) bool { return used[row.ID] > 0 }) {
			r.add(row, min(used[row.ID], row.Count()))
		}
	} else {
		r.shows = []string{r.ours()}
		laid := map[plan.ReelID]int{}
		for row := range r.plan.Reels.All() {
			if row.Taking != "" {
				laid[plan.ReelID(row.HouseReel)] += used[row.ID]
			}
		}
		for _, row := range r.those(func(row plan.Reel) bool { return laid[row.ID] > 0 && len(r.outOf(row)) > 0 }) {
			r.add(row, laid[row.ID])
		}
		r.shows = nil
	}
	if r.out.Nothing() {
		r.not("No link lays a cable of the house's")
	}
}

// takeLaid means cables of the house for what lies in links by kind and length alone.
func (r *reader) takeLaid() {
	type sort struct {
		kind   string
		length float64
	}
	counts := map[sort]int{}
	var order []sort
	for segment := range r.plan.Segments.All() {
		kind, found := r.plan.CableKinds.Get(plan.Key(segment.Kind))
		if segment.Reel != "" || segment.HouseLine != "" || !found {
			continue
		}
		each := sort{kind.Name, segment.Length}
		if counts[each] == 0 {
			order = append(order, each)
		}
		counts[each]++
	}
	if len(order) == 0 {
		r.not("No link lays a cable by length alone: all that is laid is of a stock already")
	}
	for _, each := range order {
		r.some(counts[each], each.length, each.kind, true)
	}
}

// box reads the name of a case.
func (r *reader) box(text string) bool {
	for box := range r.of().Cases.All() {
		if !strings.EqualFold(box.Name, text) {
			continue
		}
		in := func(row plan.Reel) bool { return row.Case == box.ID }
		count := len(r.those(in))
		r.addEach(in)
		switch {
		case count == 0:
			r.not("Nothing of the house's is in " + plan.Clipped(box.Name))
		case r.out.Nothing() && len(r.out.Not) == 0:
			r.not("Nothing of " + plan.Clipped(box.Name) + " is out")
		}
		return true
	}
	return false
}

// piece reads the name of what several cables are tied into.
func (r *reader) piece(text string) bool {
	rows := r.those(func(row plan.Reel) bool { return row.TiedInto != "" && strings.EqualFold(row.TiedInto, text) })
	if len(rows) == 0 {
		return false
	}
	r.add(rows[0], 0)
	return true
}

// ofShow reads "all of SHOW", and what else is received of one.
func (r *reader) ofShow(text string) bool {
	const of = " of "
	for at := range max(0, len(text)-len(of)) {
		if !strings.EqualFold(text[at:at+len(of)], of) || r.side == ToTake {
			continue
		}
		what, name := text[:at], text[at+len(of):]
		if r.side == ToGiveBack {
			return r.ofThisShow(what, name)
		}
		ids := r.showsCalled(name)
		if len(ids) > 1 {
			r.not(words.Counted(len(ids), "show is", "shows are") + " called " + plan.Clipped(name) + ": mark what came in the list, which says their days")
			return true
		}
		if len(ids) == 1 {
			return r.received(what, ids)
		}
	}
	return false
}

// received reads what comes of some shows.
func (r *reader) received(what string, ids []string) bool {
	r.shows = ids
	defer func() { r.shows = nil }()
	if strings.EqualFold(what, "all") || strings.EqualFold(what, "everything") {
		r.addEach(func(plan.Reel) bool { return true })
		return true
	}
	for _, read := range []func(string) bool{r.tag, r.box, r.piece, r.quantity, r.span} {
		if read(what) {
			return true
		}
	}
	return false
}

// ofThisShow reads "all of SHOW" where a show gives back: only its own.
func (r *reader) ofThisShow(what, name string) bool {
	switch {
	case strings.EqualFold(name, r.plan.Settings.Name):
		return r.phrase(what)
	case len(r.showsCalled(name)) > 0:
		r.not(plan.Clipped(name) + " is another show: Receive takes back what it has")
		return true
	}
	return false
}

// showsCalled are the identities of the shows of a name that have something.
func (r *reader) showsCalled(name string) (ids []string) {
	seen := map[string]bool{}
	for _, t := range r.Takings {
		if id := t.show(); t.Quantity > 0 && !seen[id] && strings.EqualFold(r.ShowName(t), name) {
			seen[id] = true
			ids = append(ids, id)
		}
	}
	return ids
}

// ours is what the plan's show is known by among takings.
func (r *reader) ours() string {
	return Taking{Plan: r.plan.Settings.Identity, Show: r.plan.Settings.Name}.show()
}

// show is what tells the shows of takings apart: the plan's identity, or the name where that is all that was kept.
func (t Taking) show() string {
	if t.Plan == "" {
		return "\x00" + t.Show
	}
	return t.Plan
}

package plan

// Undone is a link whose work on site another plan does not keep: what was done of it and what still is.
type Undone struct {
	Link LinkID
	Name string
	// Was and Now are the last steps done before and after, Now blank where nothing is.
	Was, Now string
	// Gone tells that the link is deleted, and Moved that its way or an end lies otherwise while all stays done.
	Gone, Moved bool
	// Found tells that nothing was touched: a cable was found suspect or faulty.
	Found bool
}

// String says it: "L36, tested, is deleted".
func (u Undone) String() string {
	switch {
	case u.Gone:
		return u.Name + ", " + u.Was + ", is deleted"
	case u.Moved:
		return u.Name + ", " + u.Was + ", lies another way"
	case u.Found:
		return u.Name + ", " + u.Was + ", is to be tested again"
	case u.Now == "":
		return u.Name + ", " + u.Was + ", is to be laid anew"
	}
	return u.Name + ", " + u.Was + ", is only " + u.Now + " then"
}

// TouchedOnSite lists the links that are laid, joined or tested before and are not so any more after, or lie another way,
// in the order of the table. What a person takes back by hand, the mark alone, is not among them.
func TouchedOnSite(before, after *Plan) (list []Undone) {
	if before == after {
		return nil
	}
	e := &Edit{base: before, next: *after}
	for old := range before.Links.All() {
		if old.Done == "" {
			continue
		}
		now, stays := after.Link(old.ID)
		u := Undone{Link: old.ID, Name: old.Name, Was: old.Done, Now: now.Done, Gone: !stays}
		u.Moved = stays && now.Moved && !old.Moved
		less := rank(now.Done) < rank(old.Done) && e.touches(old.ID, old, marked(now, old))
		if less {
			u.Moved = false
			u.Found = e.onlyFound(old, now)
		}
		if u.Gone || u.Moved || less {
			list = append(list, u)
		}
	}
	return list
}

// marked is a link with the marks of another.
func marked(link, as Link) Link {
	link.Done, link.Moved = as.Done, as.Moved
	return link
}

// onlyFound reports whether a link is cabled and plugged in as before, and a cable of it was found bad.
func (e *Edit) onlyFound(old, now Link) bool {
	was, is := e.base.hookupOf(old), e.next.hookupOf(now)
	same := max(e.keeps(was, is), e.keeps(was, is.turned())) > rank(Joined)
	return same && old.Transport == now.Transport && e.foundBad(is.cables)
}

// Lies reports whether a link has work done on site that picking leaves alone: its cables lie.
func (r Link) Lies() bool { return r.Done != "" }

// Cable is what a segment is made of, wherever it lies.
func (r Segment) Cable() Segment {
	return Segment{Reel: r.Reel, HouseLine: r.HouseLine, Kind: r.Kind, Length: r.Length}
}

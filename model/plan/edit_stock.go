package plan

// AddReel adds a reel, or a quantity of equal ones, under a new id and returns it.
func (e *Edit) AddReel(r Reel) ReelID {
	r.ID = ReelID(newID[Reel](e))
	Put(e, r)
	return r.ID
}

// OfTheHouse is the owner of what a show has of the house's stock.
const OfTheHouse = "house"

// NewTaking returns what rows can name a taking of the house's stock by: no row of the plan does yet.
func (e *Edit) NewTaking() string {
	taken := map[string]bool{}
	for row := range e.next.Reels.All() {
		taken[row.Taking] = true
	}
	for row := range e.next.GivenBack.All() {
		taken[row.Taking] = true
	}
	return e.ids.Next("t", func(id string) bool { return taken[id] })
}

// AddGivenBack notes what went back to the house's stock under a new id and returns it.
func (e *Edit) AddGivenBack(r GivenBack) GivenBackID {
	r.ID = GivenBackID(newID[GivenBack](e))
	Put(e, r)
	return r.ID
}

// AddService adds a line to the history of a reel under a new id and returns it.
func (e *Edit) AddService(s Service) ServiceID {
	s.ID = ServiceID(newID[Service](e))
	Put(e, s)
	return s.ID
}

// AddCase adds a case under a new id and returns it.
func (e *Edit) AddCase(c Case) CaseID {
	c.ID = CaseID(newID[Case](e))
	Put(e, c)
	return c.ID
}

// RemoveCase takes a case away; its reels stay in the stock, in no case.
func (e *Edit) RemoveCase(id CaseID) {
	changeWhere(e, func(r Reel) bool { return r.Case == id }, func(r *Reel) { r.Case = "" })
	Drop[Case](e, Key(id))
}

// SplitReel makes a row of its own of some of a quantity of equal reels, which no link holds, and returns it; all of
// them are the row as it was. What the house does not let the show have stays in that row, as far as it goes; what was done to
// all of them is in the history of both.
func (e *Edit) SplitReel(id ReelID, quantity int) (ReelID, error) {
	reel, found := e.next.Reels.Get(Key(id))
	free := reel.Count() - e.next.UsedReels()[id]
	switch {
	case !found:
		return "", refuse("there is no such reel any more")
	case quantity == reel.Count():
		return id, nil
	case quantity < 1 || quantity > reel.Count():
		return "", refuse("there are %d of them in the stock, not %d", reel.Count(), quantity)
	case quantity > free:
		return "", refuse("%d of them lie in links and %d are free: take one off its link first", reel.Count()-free, free)
	}
	part := reel
	part.Quantity = quantity
	reel.Quantity -= quantity
	reel.Lacking = min(part.Lacking, reel.Count())
	part.Lacking -= reel.Lacking
	for _, row := range []*Reel{&reel, &part} {
		if row.Lacking == 0 {
			row.LackingWhy = ""
		}
	}
	Put(e, reel)
	own := e.AddReel(part)
	for _, line := range e.next.History(id) {
		line.Reel = own
		e.AddService(line)
	}
	return own, nil
}

// UsedReels counts how many of each reel's row lie in links.
func (p *Plan) UsedReels() map[ReelID]int {
	used := map[ReelID]int{}
	for segment := range p.Segments.All() {
		if segment.Reel != "" {
			used[segment.Reel]++
		}
	}
	return used
}

// UsedHouseLines are the house lines that lie in links.
func (p *Plan) UsedHouseLines() map[HouseLineID]bool {
	used := map[HouseLineID]bool{}
	for segment := range p.Segments.All() {
		if segment.HouseLine != "" {
			used[segment.HouseLine] = true
		}
	}
	return used
}

package main

import (
	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/supply"
)

// The keys of pick --json, as schema/pick.json tells them.
type (
	pickKeys struct {
		Version    int             `json:"loomsheet"`
		File       string          `json:"file"`
		Copy       string          `json:"copy,omitempty"`
		From       string          `json:"from,omitempty"`
		OnTheDay   bool            `json:"on_the_day"`
		TakeApart  bool            `json:"take_apart"`
		LeftLying  bool            `json:"left_lying"`
		Now        pickTotalKeys   `json:"now"`
		Proposed   pickTotalKeys   `json:"proposed"`
		Changes    int             `json:"changes"`
		Come       int             `json:"cables_come"`
		Go         int             `json:"cables_go"`
		Taken      []takenKeys     `json:"taken_from_house"`
		OnSite     []onSiteKeys    `json:"on_site"`
		Proved     bool            `json:"proved"`
		Objectives []objectiveKeys `json:"objectives"`
		Links      []pickLinkKeys  `json:"links"`
		Whole      []wholeKeys     `json:"laid_whole"`
		Unserved   []unservedKeys  `json:"unserved"`
		FromShelf  []hireKeys      `json:"house_has"`
		HireIn     []hireKeys      `json:"hire_in"`
		HireProved bool            `json:"hire_proved"`
		Beyond     []string        `json:"beyond_hire"`
		Held       []heldKeys      `json:"held_back"`
	}
	pickTotalKeys struct {
		Links  int     `json:"links"`
		Served int     `json:"served"`
		Under  int     `json:"under_wanted_margin"`
		Least  *number `json:"least_margin_dB,omitempty"`
		Joins  int     `json:"joins"`
		Cable  number  `json:"cable_m"`
		Coiled number  `json:"coiled_m"`
	}
	objectiveKeys struct {
		Name  string `json:"name"`
		Value int    `json:"value"`
		Bound int    `json:"bound"`
	}
	pickLinkKeys struct {
		ID       string       `json:"id"`
		Name     string       `json:"name"`
		Changes  int          `json:"changes"`
		Now      pickSideKeys `json:"now"`
		Proposed pickSideKeys `json:"proposed"`
	}
	pickSideKeys struct {
		Served  bool           `json:"served"`
		Grade   string         `json:"grade"`
		Margin  *number        `json:"margin_dB,omitempty"`
		Run     number         `json:"run_m"`
		Source  string         `json:"way_source"`
		Laid    number         `json:"laid_m"`
		Missing number         `json:"missing_m"`
		Joins   int            `json:"joins"`
		Cables  []pickCableKey `json:"cables"`
	}
	pickCableKey struct {
		Reel      string `json:"reel,omitempty"`
		HouseReel string `json:"house_reel,omitempty"`
		HouseLine string `json:"house_line,omitempty"`
		Name      string `json:"name"`
		Kind      string `json:"kind"`
		Length    number `json:"length_m"`
	}
	onSiteKeys struct {
		ID         string `json:"id"`
		Name       string `json:"name"`
		Done       string `json:"done"`
		TakenApart bool   `json:"taken_apart"`
		Words      string `json:"words"`
	}
	unservedKeys struct {
		ID       string   `json:"id"`
		Name     string   `json:"name"`
		Priority int      `json:"priority"`
		Reason   string   `json:"reason"`
		Short    number   `json:"too_short_m,omitempty"`
		Over     number   `json:"over_dB,omitempty"`
		By       []string `json:"by"`
		Lies     bool     `json:"lies"`
		Lying    []string `json:"lying"`
		Words    string   `json:"words"`
	}
	hireKeys struct {
		Kind    string   `json:"kind"`
		Name    string   `json:"name"`
		Length  number   `json:"length_m"`
		Count   int      `json:"count"`
		WouldDo []number `json:"would_do_m,omitempty"`
	}
	wholeKeys struct {
		Name  string   `json:"name"`
		Links []string `json:"links"`
		Words string   `json:"words"`
	}
	takenKeys struct {
		HouseReel string `json:"house_reel"`
		Tag       string `json:"tag,omitempty"`
		TiedInto  string `json:"tied_into,omitempty"`
		Kind      string `json:"kind"`
		Name      string `json:"name"`
		Length    number `json:"length_m"`
		Count     int    `json:"count"`
	}
	heldKeys struct {
		Position string        `json:"position"`
		Link     string        `json:"link"`
		Cable    *pickCableKey `json:"cable,omitempty"`
	}
)

func (r picked) keys() pickKeys {
	o := r.proposal
	keys := pickKeys{
		Version: keysVersion, File: r.path, Copy: r.copy, OnTheDay: o.Request.OnTheDay, TakeApart: o.Request.TakeApart, LeftLying: o.Left, Now: totalKeysOf(o.Now), Proposed: totalKeysOf(o.Proposed),
		Changes: o.Changes, Come: o.Come, Go: o.Go, FromShelf: hireKeysOf(o.FromShelf), HireIn: hireKeysOf(o.HireIn), Proved: o.Proved, HireProved: o.HireProved || len(o.Unserved) == 0, Objectives: []objectiveKeys{}, Links: []pickLinkKeys{}, Unserved: []unservedKeys{},
		OnSite: []onSiteKeys{}, Beyond: []string{},
	}
	for _, objective := range o.Objectives {
		keys.Objectives = append(keys.Objectives, objectiveKeys{objective.Name, objective.Value, objective.Bound})
	}
	for _, change := range o.Links {
		keys.Links = append(keys.Links, pickLinkKeys{
			ID: string(change.Link), Name: change.Name, Changes: change.Changes,
			Now:      r.side(change.Before, &change.Now, change.ServedNow),
			Proposed: r.side(change.After, &change.Proposed, change.Served),
		})
	}
	for _, one := range o.OnSite {
		keys.OnSite = append(keys.OnSite, onSiteKeys{string(one.Link), one.Name, one.Done, one.TakenApart, one.String()})
	}
	for _, u := range o.Unserved {
		keys.Unserved = append(keys.Unserved, unservedKeysOf(u))
	}
	keys.Whole = wholeKeysOf(o.Whole)
	if r.house {
		keys.From = string(r.from.From)
	}
	keys.Taken = takenKeysOf(r.from.Takings)
	for _, id := range o.Beyond {
		keys.Beyond = append(keys.Beyond, string(id))
	}
	keys.Held = r.heldKeys()
	return keys
}

func (r picked) heldKeys() []heldKeys {
	keys := []heldKeys{}
	for _, held := range r.proposal.Held {
		row := heldKeys{Position: string(held.Position), Link: string(held.Link)}
		if held.Reel != "" {
			cable := r.cable(plan.Segment{Reel: held.Reel})
			row.Cable = &cable
		}
		keys = append(keys, row)
	}
	return keys
}

func wholeKeysOf(list []cabling.Whole) []wholeKeys {
	keys := []wholeKeys{}
	for _, whole := range list {
		row := wholeKeys{Name: whole.Name, Links: []string{}, Words: whole.String()}
		for _, id := range whole.Links {
			row.Links = append(row.Links, string(id))
		}
		keys = append(keys, row)
	}
	return keys
}

func takenKeysOf(takings []supply.Taking) []takenKeys {
	keys := []takenKeys{}
	for _, taking := range takings {
		keys = append(keys, takenKeys{
			string(taking.Row.ID), taking.Row.Tag, taking.Row.TiedInto, string(taking.Kind.ID), taking.Kind.Name, number(taking.Row.Length), taking.Quantity,
		})
	}
	return keys
}

func hireKeysOf(rows []cabling.Hire) []hireKeys {
	keys := []hireKeys{}
	for _, h := range rows {
		row := hireKeys{Kind: string(h.Kind), Name: h.KindName, Length: number(h.Length), Count: h.Count}
		for _, length := range h.WouldDo {
			row.WouldDo = append(row.WouldDo, number(length))
		}
		keys = append(keys, row)
	}
	return keys
}

func unservedKeysOf(u cabling.Unserved) unservedKeys {
	row := unservedKeys{
		ID: string(u.Link), Name: u.Name, Priority: u.Priority, Reason: string(u.Why), Short: number(u.Short), Over: number(u.OverDB),
		By: []string{}, Lies: u.Lies, Lying: []string{}, Words: u.String(),
	}
	for _, id := range u.Lying {
		row.Lying = append(row.Lying, string(id))
	}
	for _, id := range u.By {
		row.By = append(row.By, string(id))
	}
	return row
}

func totalKeysOf(t cabling.Totals) pickTotalKeys {
	keys := pickTotalKeys{Links: t.Links, Served: t.Served, Under: t.Under, Joins: t.Joins, Cable: number(t.Metres), Coiled: number(t.Coiled)}
	if t.LeastDB.Set {
		least := number(t.LeastDB.Value)
		keys.Least = &least
	}
	return keys
}

func (r picked) side(chain []plan.Segment, b *budget.Budget, served bool) pickSideKeys {
	keys := pickSideKeys{
		Served: served, Grade: string(b.Grade), Run: number(b.Run), Source: b.Measured.Source.Key(), Laid: number(b.Laid), Missing: number(b.Missing), Joins: b.Joins,
		Cables: []pickCableKey{},
	}
	if b.HasMargin() {
		margin := number(b.MarginDB)
		keys.Margin = &margin
	}
	for _, segment := range chain {
		keys.Cables = append(keys.Cables, r.cable(segment))
	}
	return keys
}

func (r picked) cable(segment plan.Segment) pickCableKey {
	key := pickCableKey{
		Reel: string(segment.Reel), HouseLine: string(segment.HouseLine), Name: cabling.Words(r.plan, []plan.Segment{segment}),
		Kind: string(segment.Kind), Length: number(segment.Length),
	}
	if reel, found := r.plan.Reels.Get(plan.Key(segment.Reel)); found {
		key.Kind, key.Length = string(reel.Kind), number(reel.Length)
		if row, offered := r.from.OfHouse(segment.Reel); offered {
			key.Reel, key.HouseReel = "", string(row)
		}
	}
	if line, found := r.plan.HouseLines.Get(plan.Key(segment.HouseLine)); found {
		key.Kind, key.Length = string(line.Kind), number(line.Length)
	}
	return key
}

package sources

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/standards"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// cableRow is one cable of a link.
type cableRow struct {
	segment plan.Segment
	link    plan.Link
	part    *budget.Part
	kind    string
	source  string
	coupler string
}

// Cables is a row a cable of each link, from its near end on.
func Cables(a *assess.Assessment, units panel.Units) table.Source {
	var rows []cableRow
	for _, link := range a.Links() {
		b, found := budgetOf(a, link.ID)
		if !found {
			continue
		}
		for _, segment := range a.Plan.SegmentsOf(link.ID) {
			rows = append(rows, cableRowOf(a.Plan, link, segment, b, units))
		}
	}
	return &table.List[cableRow]{
		ID: "cables", One: "cable", Many: "cables", Rows: rows,
		First:   "No link has a cable yet. Select a link and press Ctrl J to lay one, or drag one of the stock onto it.",
		RefOf:   func(r cableRow) plan.Ref { return plan.RefOf(r.segment) },
		NameOf:  func(r cableRow) string { return fmt.Sprintf("cable %d of %s", r.segment.Order, r.link.Name) },
		ShowsOf: func(r cableRow) []plan.Ref { return []plan.Ref{plan.RefOf(r.link)} },
		Fields:  append(cableNames(a.Plan, units), cableFigures(a.Plan, units)...),
		Remove:  removeCables,
	}
}

func cableRowOf(p *plan.Plan, link plan.Link, segment plan.Segment, b *budget.Budget, units panel.Units) cableRow {
	row := cableRow{segment: segment, link: link, part: &budget.Part{}}
	for i := range b.Parts {
		if part := &b.Parts[i]; part.What == budget.Cable && part.Order == segment.Order && !part.Assumed {
			row.part = part
		}
	}
	kind, _ := p.CableKinds.Get(plan.Key(row.part.Kind))
	row.kind = kind.Name
	if reel, found := p.Reels.Get(plan.Key(segment.Reel)); found {
		row.source = reelName(p, reel, units)
	}
	if line, found := p.HouseLines.Get(plan.Key(segment.HouseLine)); found {
		row.source = line.Name
	}
	if hardware, err := standards.HardwareBySlug(standards.HardwareSlug(segment.Coupler)); err == nil {
		row.coupler = hardware.Name
	}
	return row
}

// reelName is what a person calls a reel: its tag, or what it is without one.
func reelName(p *plan.Plan, reel plan.Reel, units panel.Units) string {
	if reel.Tag != "" {
		return reel.Tag
	}
	kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
	return kind.Name + " " + units.Metres(reel.Length)
}

func removeCables(e *plan.Edit, refs []plan.Ref) error {
	refs = slices.Clone(refs)
	slices.SortFunc(refs, func(x, y plan.Ref) int { return cmp.Compare(y.Key, x.Key) }) // from the far end on, so that orders stay
	for _, ref := range refs {
		segment, found := e.Now().Segments.Get(ref.Key)
		if !found {
			continue
		}
		if err := e.RemoveSegment(segment.Link, segment.Order); err != nil {
			return err
		}
	}
	return nil
}

func cableNames(p *plan.Plan, units panel.Units) []table.Field[cableRow] {
	reels := &catalogued{}
	for reel := range p.Reels.All() {
		reels.add(reelName(p, reel, units), string(reel.ID))
	}
	kinds := fillKinds(p)
	return []table.Field[cableRow]{
		{
			Column: column("link", "Link", 60, "the link that it is a cable of."),
			Text:   func(r cableRow) string { return r.link.Name },
		},
		{
			Column: number("order", "No.", 40, "its place in the link, counted from the near end."),
			Text:   func(r cableRow) string { return count(r.segment.Order) },
			Value:  func(r cableRow) float64 { return float64(r.segment.Order) },
		},
		{
			Column: column("reel", "Reel or house line", 132, "tag of the reel; type another free one's tag, or blank to have kind and length alone."),
			Text:   func(r cableRow) string { return r.source },
			Set:    setReel(reels, units),
		},
		{
			Column:  choice("kind", "Kind", 200, "what cable it is; that of a reel or a house line is theirs."),
			Text:    func(r cableRow) string { return r.kind },
			Choices: func(r cableRow) []string { return fitting(p, r.link)[1:] },
			Set: ofKind(func(e *plan.Edit, s plan.Segment, typed string) error {
				id, err := kindTyped(e, kinds, typed, false)
				if err == nil {
					s.Kind = id
					err = catalogue.ReplaceCable(e, s.Link, s.Order, s)
				}
				return err
			}),
		},
	}
}

// ofKind is a Setter for cables that are given by kind and length alone.
func ofKind(set func(e *plan.Edit, s plan.Segment, typed string) error) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		segment, found := e.Now().Segments.Get(ref.Key)
		switch {
		case !found:
			return fmt.Errorf("the cable is not in its link any more")
		case segment.Reel != "":
			return fmt.Errorf("it is a reel of the stock: change it there, or take another one here")
		case segment.HouseLine != "":
			return fmt.Errorf("it is a house line: change it there")
		}
		return set(e, segment, typed)
	}
}

// setReel lays another reel in a cable's place, or leaves its kind and length alone.
func setReel(reels *catalogued, units panel.Units) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		segment, found := e.Now().Segments.Get(ref.Key)
		if !found {
			return fmt.Errorf("the cable is not in its link any more")
		}
		if typed == "" {
			return byKind(e, segment)
		}
		id, err := reels.id(typed)
		if err != nil {
			return err
		}
		with := plan.Segment{Reel: plan.ReelID(id)}
		reel, _ := e.Now().Reels.Get(plan.Key(id))
		if used := e.Now().UsedReels()[reel.ID]; segment.Reel != reel.ID && used >= reel.Count() {
			return fmt.Errorf("%s lies in another link already", reelName(e.Now(), reel, units))
		}
		return e.ReplaceSegment(segment.Link, segment.Order, with)
	}
}

func byKind(e *plan.Edit, segment plan.Segment) error {
	with := plan.Segment{Kind: segment.Kind, Length: segment.Length}
	if reel, found := e.Now().Reels.Get(plan.Key(segment.Reel)); found {
		with.Kind, with.Length = reel.Kind, reel.Length
	}
	if line, found := e.Now().HouseLines.Get(plan.Key(segment.HouseLine)); found {
		with.Kind, with.Length = line.Kind, line.Length
	}
	return e.ReplaceSegment(segment.Link, segment.Order, with)
}

func cableFigures(p *plan.Plan, units panel.Units) []table.Field[cableRow] {
	length := metres(units, 0.1, 10000)
	couplers := &catalogued{}
	for _, hardware := range standards.AllHardware() {
		couplers.add(hardware.Name, string(hardware.Slug))
	}
	return []table.Field[cableRow]{
		{
			Column: number("length", "Length", 70, "for instance 45 m or 148 ft; that of a reel or a house line is theirs."),
			Text:   func(r cableRow) string { return units.Metres(r.part.Length) },
			Value:  func(r cableRow) float64 { return r.part.Length },
			Set: ofKind(func(e *plan.Edit, s plan.Segment, typed string) error {
				value, err := length.parse(typed)
				if err == nil {
					s.Length = value
					err = e.ReplaceSegment(s.Link, s.Order, s)
				}
				return err
			}),
		},
		{
			Column: number("start", "From", 66, "where it begins, along the cables from the near end."),
			Text:   func(r cableRow) string { return units.Metres(r.part.Start) },
			Value:  func(r cableRow) float64 { return r.part.Start },
		},
		{
			Column:  choice("coupler", "Coupler before it", 140, "what joins it to the cable before; blank is the plan's."),
			Text:    func(r cableRow) string { return r.coupler },
			Choices: func(cableRow) []string { return append([]string{""}, couplers.names...) },
			Set:     setCoupler(couplers),
		},
		{
			Column: number("loss", "Loss", 62, "its own at 100 MHz, joints aside."),
			Text: func(r cableRow) string {
				return figureText(r.part.LossDB, func(dB float64) string { return quantity.PrintDecibels(dB, 1) })
			},
			Value: func(r cableRow) float64 { return numbered(r.part.LossDB, r.part.LossDB != 0) },
		},
		{
			Column:  choice("kept", "Kept", 50, "yes: a pick leaves it where it is."),
			Text:    func(r cableRow) string { return tick(r.segment.Kept) },
			Choices: fixed[cableRow]("", "yes"),
			Set:     yes(func(s *plan.Segment) *bool { return &s.Kept }),
		},
	}
}

func setCoupler(couplers *catalogued) table.Setter {
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		segment, found := e.Now().Segments.Get(ref.Key)
		if !found {
			return fmt.Errorf("the cable is not in its link any more")
		}
		id := ""
		if typed != "" {
			var err error
			if id, err = couplers.id(typed); err != nil {
				return err
			}
		}
		return e.SetCoupler(segment.Link, segment.Order, plan.HardwareID(id))
	}
}

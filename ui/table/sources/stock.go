package sources

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// reelRow is a reel, or a number of equal ones, with where it lies.
type reelRow struct {
	reel        plan.Reel
	kind, place string
	links       []string
}

// Stock is a row a reel, or a number of equal ones: by kind, the longest first, then by tag.
func Stock(a *assess.Assessment, units panel.Units) table.Source {
	p := a.Plan
	used := usedIn(a, func(s plan.Segment) plan.Key { return plan.Key(s.Reel) })
	var rows []reelRow
	for reel := range p.Reels.All() {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		place, _ := p.Cases.Get(plan.Key(reel.Case))
		rows = append(rows, reelRow{reel, kind.Name, place.Name, used[reel.Key()]})
	}
	slices.SortStableFunc(rows, func(x, y reelRow) int {
		return cmp.Or(assess.Natural(x.kind, y.kind), cmp.Compare(y.reel.Length, x.reel.Length), assess.Natural(x.reel.Tag, y.reel.Tag))
	})
	return &table.List[reelRow]{
		ID: "stock", One: "reel", Many: "reels", Rows: rows,
		First:  "The plan has no stock yet. Press Insert, or take it from a spreadsheet or the house's stock by the Stock menu.",
		RefOf:  func(r reelRow) plan.Ref { return plan.RefOf(r.reel) },
		NameOf: func(r reelRow) string { return reelName(p, r.reel, units) },
		Fields: slices.Concat(reelNames(p, units), reelPlaces(p), reelConditions()),
		Add:    addReel,
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			return eachRef(refs, func(key plan.Key) error { return e.RemoveReel(plan.ReelID(key)) })
		},
	}
}

func eachRef(refs []plan.Ref, do func(plan.Key) error) error {
	for _, ref := range refs {
		if err := do(ref.Key); err != nil {
			return err
		}
	}
	return nil
}

// usedIn names the links that each reel or house line lies in.
func usedIn(a *assess.Assessment, of func(plan.Segment) plan.Key) map[plan.Key][]string {
	used := map[plan.Key][]string{}
	for _, link := range a.Links() {
		for _, segment := range a.Plan.SegmentsOf(link.ID) {
			if key := of(segment); key != "" && !slices.Contains(used[key], link.Name) {
				used[key] = append(used[key], link.Name)
			}
		}
	}
	return used
}

// addReel adds a reel like the one before it, without its tag.
func addReel(e *plan.Edit, after plan.Ref) (plan.Ref, error) {
	reel := plan.Reel{Length: 50}
	if like, found := e.Now().Reels.Get(after.Key); found {
		reel = plan.Reel{Kind: like.Kind, Length: like.Length, Nominal: like.Nominal, Case: like.Case, Owner: like.Owner}
	}
	if reel.Kind == "" {
		reel.Kind = usualKind(e.Now())
		if err := catalogue.UseCable(e, reel.Kind); err != nil {
			return plan.Ref{}, err
		}
	}
	return plan.Ref{Table: "reels", Key: plan.Key(e.AddReel(reel))}, nil
}

func reelNames(p *plan.Plan, units panel.Units) []table.Field[reelRow] {
	kinds := fillKinds(p)
	length := metres(units, 0.1, 10000)
	return []table.Field[reelRow]{
		{
			Column: naming(column("tag", "Tag", 80, "what is written on it; blank for equal ones without tags.")),
			Text:   func(r reelRow) string { return r.reel.Tag },
			Set:    words(func(l *plan.Reel) *string { return &l.Tag }),
		},
		{
			Column:  choice("kind", "Kind", 210, "what cable it is."),
			Text:    func(r reelRow) string { return r.kind },
			Choices: fixed[reelRow](kinds.names...),
			Set:     isOfKind(kinds, false, func(l *plan.Reel) *plan.CableKindID { return &l.Kind }),
		},
		{
			Column: number("length", "Length", 70, "as it is, for instance 45 m or 148 ft."),
			Text:   func(r reelRow) string { return units.Metres(r.reel.Length) },
			Value:  func(r reelRow) float64 { return r.reel.Length },
			Set:    measured(length, false, func(l *plan.Reel) *float64 { return &l.Length }),
		},
		{
			Column: aside(number("nominal", "Sold as", 70, "its nominal length, where it has been cut since.")),
			Text:   func(r reelRow) string { return figureText(r.reel.Nominal, units.Metres) },
			Value:  func(r reelRow) float64 { return numbered(r.reel.Nominal, r.reel.Nominal > 0) },
			Set:    measured(metres(units, 0, 10000), true, func(l *plan.Reel) *float64 { return &l.Nominal }),
		},
		{
			Column: number("count", "How many", 86, "equal ones that this row stands for."),
			Text:   func(r reelRow) string { return fmt.Sprint(r.reel.Count()) },
			Value:  func(r reelRow) float64 { return float64(r.reel.Count()) },
			Set:    setQuantity,
		},
		{
			Column: column("links", "Lies in", 110, "the links that it is laid in."),
			Text:   func(r reelRow) string { return strings.Join(r.links, ", ") },
		},
	}
}

// setQuantity sets how many a row stands for: not fewer than lie in links, and one where it has a tag.
func setQuantity(e *plan.Edit, ref plan.Ref, typed string) error {
	used := e.Now().UsedReels()[plan.ReelID(ref.Key)]
	reel, _ := e.Now().Reels.Get(ref.Key)
	if err := whole(1, 10000, func(l *plan.Reel) *int { return &l.Quantity })(e, ref, typed); err != nil {
		return err
	}
	now, _ := e.Now().Reels.Get(ref.Key)
	switch {
	case now.Count() < used:
		return fmt.Errorf("%d of them lie in links", used)
	case now.Count() > 1 && reel.Tag != "":
		return fmt.Errorf("%s is one cable with a tag of its own; make a row without a tag for more", reel.Tag)
	}
	return nil
}

func reelPlaces(p *plan.Plan) []table.Field[reelRow] {
	cases := &catalogued{}
	for row := range p.Cases.All() {
		cases.add(row.Name, string(row.ID))
	}
	return []table.Field[reelRow]{
		{
			Column: column("case", "Case", 150, "where it lives; a new name makes a case."),
			Text:   func(r reelRow) string { return r.place },
			Set:    setCase,
		},
		{
			Column: column("owner", "Owner", 90, "whose it is, where it is not the house's."),
			Text:   func(r reelRow) string { return r.reel.Owner },
			Set:    words(func(l *plan.Reel) *string { return &l.Owner }),
		},
		{
			Column: aside(column("hire", "Hire reference", 100, "of what is hired in.")),
			Text:   func(r reelRow) string { return r.reel.Hire },
			Set:    words(func(l *plan.Reel) *string { return &l.Hire }),
		},
		{
			Column: aside(column("return", "Back by", 84, "the day that it goes back.")),
			Text:   func(r reelRow) string { return r.reel.Return },
			Set:    dated(func(l *plan.Reel) *string { return &l.Return }),
		},
	}
}

func setCase(e *plan.Edit, ref plan.Ref, typed string) error {
	name, err := readWords(typed)
	if err != nil {
		return err
	}
	var id plan.CaseID
	for row := range e.Now().Cases.All() {
		if strings.EqualFold(row.Name, name) {
			id = row.ID
		}
	}
	if name != "" && id == "" {
		id = e.AddCase(plan.Case{Name: name})
	}
	return plan.Update(e, ref.Key, func(l *plan.Reel) { l.Case = id })
}

func reelConditions() []table.Field[reelRow] {
	return []table.Field[reelRow]{
		{
			Column:  choice("condition", "Condition", 90, "good, suspect or faulty; of several equal ones one is marked, in a row of its own."),
			Text:    func(r reelRow) string { return cmp.Or(r.reel.Condition, plan.Good) },
			Tone:    conditionTone,
			Choices: fixed[reelRow](plan.Good, plan.Suspect, plan.Faulty),
			Set:     setCondition,
		},
		{
			Column: column("reason", "Reason", 140, "why it is suspect or faulty."),
			Text:   func(r reelRow) string { return r.reel.Reason },
			Set:    note(func(l *plan.Reel) *string { return &l.Reason }),
		},
		{
			Column: aside(column("found at", "Found at", 90, "where that was found.")),
			Text:   func(r reelRow) string { return r.reel.FoundAt },
			Set:    words(func(l *plan.Reel) *string { return &l.FoundAt }),
		},
		{
			Column: aside(column("found on", "Found on", 84, "the day that it was found.")),
			Text:   func(r reelRow) string { return r.reel.FoundOn },
			Set:    dated(func(l *plan.Reel) *string { return &l.FoundOn }),
		},
		{
			Column: aside(number("measured", "Measured", 76, "its loss at 100 MHz as measured, in dB; it then counts instead of the catalogue's.")),
			Text:   func(r reelRow) string { return optionalText(r.reel.Measured, decibels(0, 200).print) },
			Value:  func(r reelRow) float64 { return optionalValue(r.reel.Measured) },
			Set:    optional(decibels(0, 200), func(l *plan.Reel) *plan.Optional { return &l.Measured }),
		},
		{
			Column: aside(column("note", "Note", 160, "anything the crew should know.")),
			Text:   func(r reelRow) string { return r.reel.Note },
			Set:    note(func(l *plan.Reel) *string { return &l.Note }),
		},
	}
}

func conditionTone(r reelRow) table.Tone { return conditionToneOf(r.reel.Condition) }

// conditionToneOf is the tone of a cable's condition.
func conditionToneOf(condition string) table.Tone {
	switch condition {
	case plan.Faulty:
		return table.Stop
	case plan.Suspect:
		return table.Warn
	}
	return table.Usual
}

func setCondition(e *plan.Edit, ref plan.Ref, typed string) error {
	word, err := picked(strings.TrimSpace(typed), []string{plan.Good, plan.Suspect, plan.Faulty})
	if err != nil {
		return err
	}
	reel, _ := e.Now().Reels.Get(ref.Key)
	_, err = e.MarkReel(reel.ID, plan.Mark{Condition: word, Reason: reel.Reason, FoundAt: reel.FoundAt, FoundOn: reel.FoundOn})
	return err
}

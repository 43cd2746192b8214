package sources

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// reelRow is a reel, or a number of equal ones, with where it lies.
type reelRow struct {
	reel  plan.Reel
	kind  string
	links []string
}

// Stock is a row a reel, or a number of equal ones: by kind, the longest first, then by tag.
func Stock(a *assess.Assessment, units words.Units) table.Source {
	p := a.Plan
	used := usedIn(a, func(s plan.Segment) plan.Key { return plan.Key(s.Reel) })
	var rows []reelRow
	for reel := range p.Reels.All() {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		rows = append(rows, reelRow{reel, kind.Name, used[reel.Key()]})
	}
	slices.SortStableFunc(rows, func(x, y reelRow) int {
		return cmp.Or(words.Natural(x.kind, y.kind), cmp.Compare(y.reel.Length, x.reel.Length), words.Natural(x.reel.Tag, y.reel.Tag))
	})
	return &table.List[reelRow]{
		ID: "stock", One: "reel", Many: "reels", Rows: rows,
		First:  "The plan has no stock yet. Press Insert, or take it from a spreadsheet or the house's stock by the Stock menu.",
		RefOf:  func(r reelRow) plan.Ref { return plan.RefOf(r.reel) },
		NameOf: func(r reelRow) string { return words.Row(p, plan.RefOf(r.reel), units) },
		Fields: reelFields(asField[reelRow]{plan.ReelsTable, fields.On(p, a.Reckoner(), units), func(r reelRow) any { return r.reel }}),
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
	return plan.Ref{Table: plan.ReelsTable, Key: plan.Key(e.AddReel(reel))}, nil
}

func reelFields(as asField[reelRow]) []table.ColumnOf[reelRow] {
	condition := as.column("condition", 90)
	condition.Tone = conditionTone
	return []table.ColumnOf[reelRow]{
		as.column("tag", 80), as.column("kind", 210), as.column("length", 70), as.aside("nominal", 116), as.column("count", 86),
		{
			Column: column("links", "Lies in", 110, "the links that it is laid in."),
			Text:   func(r reelRow) string { return strings.Join(r.links, ", ") },
		},
		as.column("case", 150), as.column("owner", 90), as.aside("hire", 110), as.aside("return", 94), as.aside("bought", 84),
		as.aside("tied", 110), as.aside("weight", 80), as.aside("state", 90), as.aside("state_on", 98),
		condition, as.column("reason", 140), as.aside("found_at", 90), as.aside("found_on", 90), as.aside("measured", 110),
		as.aside("history", 160), as.aside("note", 160),
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

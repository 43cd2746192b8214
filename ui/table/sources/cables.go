package sources

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/fields"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// cableRow is one cable of a link.
type cableRow struct {
	segment plan.Segment
	link    plan.Link
	part    *budget.Part
}

// Cables is a row a cable of each link, from its near end on.
func Cables(a *assess.Assessment, units words.Units) table.Source {
	var rows []cableRow
	for _, link := range a.Links() {
		b, found := budgetOf(a, link.ID)
		if !found {
			continue
		}
		for _, segment := range a.Plan.SegmentsOf(link.ID) {
			rows = append(rows, cableRowOf(link, segment, b))
		}
	}
	return &table.List[cableRow]{
		ID: "cables", One: "cable", Many: "cables", Rows: rows,
		First:   "No link has a cable yet. Select a link and press Ctrl J to lay one, or drag one of the stock onto it.",
		RefOf:   func(r cableRow) plan.Ref { return plan.RefOf(r.segment) },
		NameOf:  func(r cableRow) string { return fmt.Sprintf("cable %d of %s", r.segment.Order, r.link.Name) },
		ShowsOf: func(r cableRow) []plan.Ref { return []plan.Ref{plan.RefOf(r.link)} },
		Fields:  cableColumns(asField[cableRow]{plan.SegmentsTable, fields.On(a.Plan, a.Reckoner(), units), func(r cableRow) any { return r.segment }}, units),
		Remove:  removeCables,
	}
}

func cableRowOf(link plan.Link, segment plan.Segment, b *budget.Budget) cableRow {
	row := cableRow{segment: segment, link: link, part: &budget.Part{}}
	for i := range b.Parts {
		if part := &b.Parts[i]; part.What == budget.Cable && part.Order == segment.Order && !part.Assumed {
			row.part = part
		}
	}
	return row
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

func cableColumns(as asField[cableRow], units words.Units) []table.ColumnOf[cableRow] {
	return []table.ColumnOf[cableRow]{
		{
			Column: column("link", "Link", 60, "the link that it is a cable of."),
			Text:   func(r cableRow) string { return r.link.Name },
		},
		{
			Column: number("order", "No.", 40, "its place in the link, counted from the near end."),
			Text:   func(r cableRow) string { return count(r.segment.Order) },
			Value:  func(r cableRow) float64 { return float64(r.segment.Order) },
		},
		as.column("reel", 132), as.column("kind", 200), as.column("length", 70),
		{
			Column: number("start", "From", 66, "where it begins, along the cables from the near end."),
			Text:   func(r cableRow) string { return units.Tenths(r.part.Start) },
			Value:  func(r cableRow) float64 { return r.part.Start },
		},
		as.column("coupler", 140),
		{
			Column: number("loss", "Loss", 62, "its own "+medium.References(standards.Transports()...)+", joints aside."),
			Text: func(r cableRow) string {
				return figureText(r.part.LossDB, func(dB float64) string { return quantity.PrintDecibels(dB, 1) })
			},
			Value: func(r cableRow) float64 { return numbered(r.part.LossDB, r.part.LossDB != 0) },
		},
		as.column("kept", 142),
	}
}

package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// otherKind finds cables that picking would not lay where they lie though their medium is right: another kind than the link
// wants where no loss tells kinds apart, and looms of several cables in the place of one. A house line is what the venue has.
func otherKind(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		wanted, _ := s.Plan.CableKinds.Get(plan.Key(link.FillKind))
		for _, cable := range v.cables {
			if cable.part.What != budget.Cable || cable.part.Assumed || cable.part.HouseLine != "" || cable.foreign {
				continue
			}
			f := Finding{Severity: Warn, Where: and(at(link), plan.CableKindsTable, cable.kind.Key())}
			switch {
			case cable.kind.Form == budget.Loom:
				f.What = fmt.Sprintf("%s lies on %s, which is a loom of several cables", link.Name, cable.named())
				f.Remedy = "Lay one cable for this link, or take the loom apart into its cables in the stock."
			case !budget.Meant(*link, cable.kind.ID, b.Graded) && wanted.ID != "":
				f.What = fmt.Sprintf("%s wants %s, and %s is another kind", link.Name, wanted.Name, cable.named())
				f.Remedy = "Lay the kind that is wanted, or say on the link that it wants this one: no loss tells here whether it will do, and a pick would not lay it."
				f.Short = fmt.Sprintf("%s in the place of %s", cable.kind.Name, wanted.Name)
				f.many, f.item = fmt.Sprintf("want %s and lie on %s", wanted.Name, cable.kind.Name), link.Name
				if wanted.Ways > 0 && cable.kind.Ways > 0 && cable.kind.Ways < wanted.Ways {
					f.Severity = Stop
					f.What = fmt.Sprintf("%s wants the %d ways of %s, and %s has %d", link.Name, wanted.Ways, wanted.Name, cable.named(), cable.kind.Ways)
				}
			default:
				continue
			}
			found = append(found, f)
			return
		}
	})
	return found
}

// wantWhatLies proposes that a link wants the kind that lies in it.
func wantWhatLies(s *Subject, f Finding) []Fix {
	link, found := s.linkOf(f)
	if !found || len(f.Where) < 2 || f.Severity == Stop {
		return nil
	}
	kind, _ := s.Plan.CableKinds.Get(f.Where[1].Key)
	if kind.Form == budget.Loom {
		return nil
	}
	return []Fix{linkFix(link, fmt.Sprintf("Want %s, as it lies", kind.Name), func(r *plan.Link) { r.FillKind = kind.ID })}
}

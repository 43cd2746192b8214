package text

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Remove takes rows of a selection out of a plan: devices with what is plugged in and patched there, links, positions,
// areas and looms.
func Remove(e *plan.Edit, selection []plan.Ref) {
	var devices []plan.DeviceID
	var links []plan.LinkID
	for _, ref := range selection {
		switch ref.Table {
		case plan.DevicesTable:
			devices = append(devices, plan.DeviceID(ref.Key))
		case plan.LinksTable:
			links = append(links, plan.LinkID(ref.Key))
		case plan.PositionsTable:
			e.RemovePosition(plan.PositionID(ref.Key))
		case plan.AreasTable:
			e.RemoveArea(plan.AreaID(ref.Key))
		case plan.LoomsTable:
			e.DissolveLoom(plan.LoomID(ref.Key))
		}
	}
	e.RemoveLinks(links...)
	e.RemoveDevices(devices...)
	e.DissolveEmptiedLooms()
}

// Leaving is what a deletion would take along, told before it is done.
type Leaving struct {
	// What names what is deleted: "Stage left", "L04", "3 devices".
	What string
	// Along are what goes with it, and Stays what stays but changes, each in a line: "3 links: L01, L02, L03".
	Along, Stays []string
	// OnSite names each link that is laid, joined or tested and that this touches.
	OnSite []string
	// Asks tells that more goes than what was selected, so that it is worth a question.
	Asks bool
}

// LeavingOf reckons what would leave the plan with the selected rows.
func LeavingOf(p *plan.Plan, selection []plan.Ref) (Leaving, error) {
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { Remove(e, selection); return nil })
	if err != nil {
		return Leaving{}, err
	}
	selected := map[plan.Ref]bool{}
	for _, ref := range selection {
		selected[plan.Ref{Table: ref.Table, Key: ref.Key}] = true
	}
	l := Leaving{What: whatOf(p, selection), OnSite: OnSite(p, next)}
	l.Asks = len(l.OnSite) > 0
	l.goes(len(selected) > 0, "link", "links", goneNames(p.Links.All(), func(r plan.Link) (string, bool) {
		return r.Name, !next.Links.Has(r.Key()) && !selected[plan.RefOf(r)]
	}))
	l.cables(p, next)
	patched := gone(p.StagePatches, next.StagePatches) + gone(p.ConsolePatches, next.ConsolePatches) + gone(p.SlotPatches, next.SlotPatches) +
		gone(p.OutputPatches, next.OutputPatches)
	if patched > 0 {
		l.Along, l.Asks = append(l.Along, words.Counted(patched, "patch row", "patch rows")), true
	}
	l.ways(p, next)
	l.goes(true, "loom", "looms", goneNames(p.Looms.All(), func(r plan.Loom) (string, bool) {
		return r.Name, !next.Looms.Has(r.Key()) && !selected[plan.RefOf(r)]
	}))
	l.stay("device stays where it stands", "devices stay where they stand", goneNames(next.Devices.All(), func(r plan.Device) (string, bool) {
		old, _ := p.Device(r.ID)
		return r.Name, old.Position != r.Position
	}))
	l.stay("link stays, with its way", "links stay, with their ways", goneNames(next.Links.All(), func(r plan.Link) (string, bool) {
		old, _ := p.Link(r.ID)
		return r.Name, old.Loom != r.Loom
	}))
	for link := range next.Links.All() {
		if old, _ := p.Link(link.ID); old.Partner != link.Partner {
			l.Stays = append(l.Stays, link.Name+" stands alone, without its "+map[string]string{"main": "backup", "backup": "main"}[old.Role])
		}
	}
	return l, nil
}

// ways adds what the patch loses: inputs and outputs that were plugged in, channels that had a signal.
func (l *Leaving) ways(p, next *plan.Plan) {
	before := patch.Of(p)
	lost := patch.Lost(before, patch.Of(next))
	if len(lost) == 0 {
		return
	}
	var said []string
	for _, loss := range lost[:min(len(lost), mostLosses)] {
		words := loss.Words
		if act := before.ActName(loss.Act); loss.Act != "" && act != "" {
			words += " in " + act
		}
		said = append(said, words)
	}
	if more := len(lost) - mostLosses; more > 0 {
		said = append(said, fmt.Sprintf("and %d more", more))
	}
	l.Along, l.Asks = append(l.Along, words.Counted(len(lost), "patched signal", "patched signals")+": "+strings.Join(said, "; ")), true
}

// mostLosses is how many lost signals are told one by one.
const mostLosses = 2

// goes adds rows that leave with the selection.
func (l *Leaving) goes(asks bool, one, many string, names []string) {
	if len(names) > 0 {
		l.Along, l.Asks = append(l.Along, words.Counted(len(names), one, many)+": "+words.Listed(names)), l.Asks || asks
	}
}

// stay adds rows that stay without what is deleted.
func (l *Leaving) stay(one, many string, names []string) {
	if len(names) > 0 {
		l.Stays, l.Asks = append(l.Stays, words.Counted(len(names), one, many)+": "+words.Listed(names)), true
	}
}

// cables adds the cables that are free again; that alone is worth no question.
func (l *Leaving) cables(p, next *plan.Plan) {
	var names []string
	count := 0
	for segment := range p.Segments.All() {
		if next.Links.Has(plan.Key(segment.Link)) {
			continue
		}
		count++
		if reel, found := p.Reels.Get(plan.Key(segment.Reel)); found && reel.Tag != "" {
			names = append(names, reel.Tag)
		}
	}
	if count == 0 {
		return
	}
	said := words.Counted(count, "cable freed", "cables freed")
	slices.Sort(names)
	if len(names) > 0 {
		said += ": " + words.Listed(names)
	}
	l.Along = append(l.Along, said)
}

// Sentence says it all in one: "Stage left goes, with 3 links, 5 cables freed, 12 patch rows".
func (l Leaving) Sentence() string { return l.with("goes") }

// Done says it when it has been done: "Stage left is gone, with 3 links".
func (l Leaving) Done() string { return l.with("is gone") }

func (l Leaving) with(verb string) string {
	said := l.What + " " + verb
	for i, along := range l.Along {
		count, _, _ := strings.Cut(along, ":")
		if i == 0 {
			said += ", with " + count
		} else {
			said += ", " + count
		}
	}
	for _, stays := range l.Stays {
		count, _, _ := strings.Cut(stays, ":")
		said += "; " + count
	}
	return said
}

// gone counts the rows of a table that another lacks.
func gone[R plan.Row](table, next *plan.Table[R]) (count int) {
	for row := range table.All() {
		if !next.Has(row.Key()) {
			count++
		}
	}
	return count
}

func goneNames[R plan.Row](rows iter.Seq[R], picked func(R) (string, bool)) (names []string) {
	for row := range rows {
		if name, is := picked(row); is {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// whatOf names a selection.
func whatOf(p *plan.Plan, selection []plan.Ref) string {
	if len(selection) == 1 {
		return NameOf(p, selection[0])
	}
	return fmt.Sprintf("%d things", len(selection))
}

// NameOf is what a row is called on screen.
func NameOf(p *plan.Plan, ref plan.Ref) string {
	var name string
	switch ref.Table {
	case plan.DevicesTable:
		row, _ := p.Devices.Get(ref.Key)
		name = row.Name
	case plan.LinksTable:
		row, _ := p.Links.Get(ref.Key)
		name = row.Name
	case plan.PositionsTable:
		row, _ := p.Positions.Get(ref.Key)
		name = row.Name
	case plan.AreasTable:
		row, _ := p.Areas.Get(ref.Key)
		name = row.Name
	case plan.LoomsTable:
		row, _ := p.Looms.Get(ref.Key)
		name = row.Name
	default:
		name = listedName(p, ref)
	}
	return name
}

// listedName is what a row of a list is called that does not lie on the plan.
func listedName(p *plan.Plan, ref plan.Ref) string {
	switch ref.Table {
	case plan.ReelsTable:
		row, _ := p.Reels.Get(ref.Key)
		kind, _ := p.CableKinds.Get(plan.Key(row.Kind))
		return cmp.Or(row.Tag, fmt.Sprintf("%s of %g m", kind.Name, row.Length))
	case plan.HouseLinesTable:
		row, _ := p.HouseLines.Get(ref.Key)
		return row.Name
	case plan.InputsTable:
		row, _ := p.Inputs.Get(ref.Key)
		return row.Name
	case plan.OutputsTable:
		row, _ := p.Outputs.Get(ref.Key)
		return row.Name
	case plan.ActsTable:
		row, _ := p.Acts.Get(ref.Key)
		return row.Name
	}
	return string(ref.Key)
}

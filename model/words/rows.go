package words

import (
	"cmp"
	"fmt"

	"stageloom/model/plan"
)

// rowWords are what one row of a table and several are called.
var rowWords = map[string][2]string{
	plan.ContactsTable: {"contact", "contacts"}, plan.LevelsTable: {"level", "levels"}, plan.PositionsTable: {"position", "positions"},
	plan.AreasTable: {"area", "areas"}, plan.RoutesTable: {"route", "routes"}, plan.KindsTable: {"kind of device", "kinds of device"},
	plan.DevicesTable: {"device", "devices"}, plan.CableKindsTable: {"kind of cable", "kinds of cable"}, plan.CasesTable: {"case", "cases"},
	plan.ReelsTable: {"reel", "reels"}, plan.HouseLinesTable: {"house line", "house lines"}, plan.LoomsTable: {"loom", "looms"},
	plan.LinksTable: {"link", "links"}, plan.SegmentsTable: {"cable", "cables"}, plan.InputsTable: {"input", "inputs"},
	plan.OutputsTable: {"output", "outputs"}, plan.ActsTable: {"act", "acts"}, plan.ActConsolesTable: {"guest console", "guest consoles"},
	plan.RevisionsTable: {"revision", "revisions"}, plan.TransportRulesTable: {"limit rule", "limit rules"},
}

// Rows are what one row of a table and several are called: "reel", "reels".
func Rows(table string) (one, many string) {
	said, found := rowWords[table]
	if !found {
		return "row", "rows"
	}
	return said[0], said[1]
}

// Row is what a row is called: its name or tag; a reel without a tag is what it is: "Cat 6A 45 m". Blank where the plan has no
// such row.
func Row(p *plan.Plan, ref plan.Ref, units Units) string {
	switch ref.Table {
	case plan.ReelsTable:
		row, found := p.Reels.Get(ref.Key)
		if !found {
			return ""
		}
		kind, _ := p.CableKinds.Get(plan.Key(row.Kind))
		return cmp.Or(row.Tag, kind.Name+" "+units.Piece(row.Length))
	case plan.SegmentsTable:
		row, found := p.Segments.Get(ref.Key)
		if !found {
			return ""
		}
		link, _ := p.Link(row.Link)
		return fmt.Sprintf("cable %d of %s", row.Order, link.Name)
	case plan.ActConsolesTable:
		row, _ := p.ActConsoles.Get(ref.Key)
		device, _ := p.Device(row.Console)
		return device.Name
	}
	table, found := plan.TableNamed(ref.Table)
	if !found {
		return ""
	}
	row, found := table.Get(p, ref.Key)
	name, named := table.Column("name")
	if !found || !named {
		return ""
	}
	return name.Of(row).(string)
}

package words

import (
	"cmp"
	"fmt"

	"stageloom/model/plan"
)

// rowWords are what one row of a table and several are called.
var rowWords = map[string][2]string{
	"contacts": {"contact", "contacts"}, "levels": {"level", "levels"}, "positions": {"position", "positions"},
	"areas": {"area", "areas"}, "routes": {"route", "routes"}, "kinds": {"kind of device", "kinds of device"},
	"devices": {"device", "devices"}, "cable_kinds": {"kind of cable", "kinds of cable"}, "cases": {"case", "cases"},
	"reels": {"reel", "reels"}, "house_lines": {"house line", "house lines"}, "looms": {"loom", "looms"},
	"links": {"link", "links"}, "segments": {"cable", "cables"}, "inputs": {"input", "inputs"},
	"outputs": {"output", "outputs"}, "acts": {"act", "acts"}, "act_consoles": {"guest console", "guest consoles"},
	"revisions": {"revision", "revisions"}, "transport_rules": {"limit rule", "limit rules"},
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
	case "reels":
		row, found := p.Reels.Get(ref.Key)
		if !found {
			return ""
		}
		kind, _ := p.CableKinds.Get(plan.Key(row.Kind))
		return cmp.Or(row.Tag, kind.Name+" "+units.Metres(row.Length))
	case "segments":
		row, found := p.Segments.Get(ref.Key)
		if !found {
			return ""
		}
		link, _ := p.Link(row.Link)
		return fmt.Sprintf("cable %d of %s", row.Order, link.Name)
	case "act_consoles":
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

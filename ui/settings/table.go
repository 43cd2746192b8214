package settings

import (
	"fmt"
	"strconv"
	"strings"
)

// ColumnLook is how one column of a table is shown: its width in the toolkit's units.
type ColumnLook struct {
	Name   string
	Width  float32
	Hidden bool
}

// TableLook is how a table is laid out: columns in their order, and the column it is sorted by, blank for none.
type TableLook struct {
	Columns []ColumnLook
	Sort    string
	Down    bool
}

// The keys of what is kept of tables.
const (
	keyTable     = "table "
	keyTableSort = "table sort "
	keyDrawer    = "tables share"
	keyOpenTable = "table open"
	keyChannels  = "channels follow"
	keyUnused    = "unused hidden"
)

// Table is the layout kept for a table of this name; without columns where none was kept or it makes no sense.
func (s *Settings) Table(name string) TableLook {
	var look TableLook
	for _, entry := range s.kept.StringList(keyTable + name) {
		rest, shown := cutLast(entry)
		name, wide := cutLast(rest) // a name may hold the sign between the parts: a console may be called so
		width, err := strconv.ParseFloat(wide, 32)
		if err != nil || !(width >= 20 && width <= 2000) {
			return TableLook{}
		}
		look.Columns = append(look.Columns, ColumnLook{name, float32(width), shown == "hidden"})
	}
	look.Sort = s.kept.String(keyTableSort + name)
	look.Sort, look.Down = strings.CutSuffix(look.Sort, "|down")
	return look
}

// cutLast parts an entry at its last sign between parts.
func cutLast(entry string) (before, last string) {
	at := max(0, strings.LastIndex(entry, "|"))
	return entry[:at], strings.TrimPrefix(entry[at:], "|")
}

// SetTable keeps the layout of a table.
func (s *Settings) SetTable(name string, look TableLook) {
	var entries []string
	for _, column := range look.Columns {
		shown := "shown"
		if column.Hidden {
			shown = "hidden"
		}
		entries = append(entries, fmt.Sprintf("%s|%.0f|%s", column.Name, column.Width, shown))
	}
	s.kept.SetStringList(keyTable+name, entries)
	sort := look.Sort
	if look.Down {
		sort += "|down"
	}
	s.kept.SetString(keyTableSort+name, sort)
}

// Drawer is the share of the plan above the tables.
func (s *Settings) Drawer() float64 { return s.share(keyDrawer, 0.42) }

// SetDrawer keeps the share of the plan above the tables.
func (s *Settings) SetDrawer(share float64) { s.kept.SetFloat(keyDrawer, share) }

// OpenTable is the name of the table that was open last, blank for none.
func (s *Settings) OpenTable() string { return s.kept.String(keyOpenTable) }

// SetOpenTable keeps which table is open, blank for none.
func (s *Settings) SetOpenTable(name string) { s.kept.SetString(keyOpenTable, name) }

// ChannelsFollow reports whether an input that is plugged elsewhere keeps its channels.
func (s *Settings) ChannelsFollow() bool { return s.kept.BoolWithFallback(keyChannels, true) }

// SetChannelsFollow keeps whether channels follow their inputs.
func (s *Settings) SetChannelsFollow(follow bool) { s.kept.SetBool(keyChannels, follow) }

// UnusedHidden reports whether the tables of the patch leave out what the house has and the act that is shown does not use.
func (s *Settings) UnusedHidden() bool { return s.kept.Bool(keyUnused) }

// SetUnusedHidden keeps whether they do.
func (s *Settings) SetUnusedHidden(hidden bool) { s.kept.SetBool(keyUnused, hidden) }

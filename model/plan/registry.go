package plan

import (
	"iter"
	"reflect"
)

// TableInfo describes one table to code that treats all tables alike: the file, the journal, random tests.
type TableInfo struct {
	// Name is the table's name in the file.
	Name string
	// Letter begins its ids; blank where rows have slugs or composite keys.
	Letter string
	// RowType is the struct type of its rows.
	RowType reflect.Type

	fields []field
	ops    tableOps
}

// tableOps are the typed operations of one table, closed over its row type.
type tableOps interface {
	length(*Plan) int
	same(a, b *Plan) bool
	equal(a, b *Plan) bool
	rows(*Plan) iter.Seq[any]
	has(*Plan, Key) bool
	get(*Plan, Key) (any, bool)
	put(*Edit, any)
	drop(*Edit, Key) bool
	freeze(*Plan)
	share(from, to *Plan)
	keyOf(any) Key
	between(a, b *Plan, d *Delta)
	apply(e *Edit, d *Delta) []Problem
	changed(*Delta) ([]any, []Key)
	addSet(*Delta, any)
	addDrop(*Delta, Key)
}

// typedOps finds one table in a plan and its changes in a delta.
type typedOps[R Row] struct {
	table   func(*Plan) **Table[R]
	changes func(*Delta) *Changes[R]
}

func describe[R Row](name, letter string, table func(*Plan) **Table[R], changes func(*Delta) *Changes[R]) *TableInfo {
	rowType := reflect.TypeFor[R]()
	return &TableInfo{name, letter, rowType, fieldsOf(rowType), typedOps[R]{table, changes}}
}

// tables lists all tables in file order: what is referred to stands before what refers to it.
var tables = []*TableInfo{
	describe(ContactsTable, "x", func(p *Plan) **Table[Contact] { return &p.Contacts }, func(d *Delta) *Changes[Contact] { return &d.Contacts }),
	describe(TransportRulesTable, "", func(p *Plan) **Table[TransportRule] { return &p.TransportRules }, func(d *Delta) *Changes[TransportRule] { return &d.TransportRules }),
	describe(LevelsTable, "v", func(p *Plan) **Table[Level] { return &p.Levels }, func(d *Delta) *Changes[Level] { return &d.Levels }),
	describe(PositionsTable, "p", func(p *Plan) **Table[Position] { return &p.Positions }, func(d *Delta) *Changes[Position] { return &d.Positions }),
	describe(AreasTable, "a", func(p *Plan) **Table[Area] { return &p.Areas }, func(d *Delta) *Changes[Area] { return &d.Areas }),
	describe(AreaPointsTable, "", func(p *Plan) **Table[AreaPoint] { return &p.AreaPoints }, func(d *Delta) *Changes[AreaPoint] { return &d.AreaPoints }),
	describe(RoutesTable, "t", func(p *Plan) **Table[Route] { return &p.Routes }, func(d *Delta) *Changes[Route] { return &d.Routes }),
	describe(RoutePointsTable, "", func(p *Plan) **Table[RoutePoint] { return &p.RoutePoints }, func(d *Delta) *Changes[RoutePoint] { return &d.RoutePoints }),
	describe(KindsTable, "", func(p *Plan) **Table[Kind] { return &p.Kinds }, func(d *Delta) *Changes[Kind] { return &d.Kinds }),
	describe(KindPortsTable, "", func(p *Plan) **Table[KindPort] { return &p.KindPorts }, func(d *Delta) *Changes[KindPort] { return &d.KindPorts }),
	describe(KindSocketsTable, "", func(p *Plan) **Table[KindSocket] { return &p.KindSockets }, func(d *Delta) *Changes[KindSocket] { return &d.KindSockets }),
	describe(KindWaysTable, "", func(p *Plan) **Table[KindWay] { return &p.KindWays }, func(d *Delta) *Changes[KindWay] { return &d.KindWays }),
	describe(DevicesTable, "d", func(p *Plan) **Table[Device] { return &p.Devices }, func(d *Delta) *Changes[Device] { return &d.Devices }),
	describe(CableKindsTable, "", func(p *Plan) **Table[CableKind] { return &p.CableKinds }, func(d *Delta) *Changes[CableKind] { return &d.CableKinds }),
	describe(CasesTable, "c", func(p *Plan) **Table[Case] { return &p.Cases }, func(d *Delta) *Changes[Case] { return &d.Cases }),
	describe(ReelsTable, "r", func(p *Plan) **Table[Reel] { return &p.Reels }, func(d *Delta) *Changes[Reel] { return &d.Reels }),
	describe(GivenBackTable, "b", func(p *Plan) **Table[GivenBack] { return &p.GivenBack }, func(d *Delta) *Changes[GivenBack] { return &d.GivenBack }),
	describe(ServicesTable, "w", func(p *Plan) **Table[Service] { return &p.Services }, func(d *Delta) *Changes[Service] { return &d.Services }),
	describe(HouseLinesTable, "h", func(p *Plan) **Table[HouseLine] { return &p.HouseLines }, func(d *Delta) *Changes[HouseLine] { return &d.HouseLines }),
	describe(LoomsTable, "m", func(p *Plan) **Table[Loom] { return &p.Looms }, func(d *Delta) *Changes[Loom] { return &d.Looms }),
	describe(LoomPointsTable, "", func(p *Plan) **Table[LoomPoint] { return &p.LoomPoints }, func(d *Delta) *Changes[LoomPoint] { return &d.LoomPoints }),
	describe(LinksTable, "k", func(p *Plan) **Table[Link] { return &p.Links }, func(d *Delta) *Changes[Link] { return &d.Links }),
	describe(LinkPointsTable, "", func(p *Plan) **Table[LinkPoint] { return &p.LinkPoints }, func(d *Delta) *Changes[LinkPoint] { return &d.LinkPoints }),
	describe(SegmentsTable, "", func(p *Plan) **Table[Segment] { return &p.Segments }, func(d *Delta) *Changes[Segment] { return &d.Segments }),
	describe(InputsTable, "i", func(p *Plan) **Table[Input] { return &p.Inputs }, func(d *Delta) *Changes[Input] { return &d.Inputs }),
	describe(OutputsTable, "o", func(p *Plan) **Table[Output] { return &p.Outputs }, func(d *Delta) *Changes[Output] { return &d.Outputs }),
	describe(ActsTable, "n", func(p *Plan) **Table[Act] { return &p.Acts }, func(d *Delta) *Changes[Act] { return &d.Acts }),
	describe(StagePatchesTable, "", func(p *Plan) **Table[StagePatch] { return &p.StagePatches }, func(d *Delta) *Changes[StagePatch] { return &d.StagePatches }),
	describe(ConsolePatchesTable, "", func(p *Plan) **Table[ConsolePatch] { return &p.ConsolePatches }, func(d *Delta) *Changes[ConsolePatch] { return &d.ConsolePatches }),
	describe(SlotPatchesTable, "", func(p *Plan) **Table[SlotPatch] { return &p.SlotPatches }, func(d *Delta) *Changes[SlotPatch] { return &d.SlotPatches }),
	describe(OutputPatchesTable, "", func(p *Plan) **Table[OutputPatch] { return &p.OutputPatches }, func(d *Delta) *Changes[OutputPatch] { return &d.OutputPatches }),
	describe(ActConsolesTable, "", func(p *Plan) **Table[ActConsole] { return &p.ActConsoles }, func(d *Delta) *Changes[ActConsole] { return &d.ActConsoles }),
	describe(SocketOwnersTable, "", func(p *Plan) **Table[SocketOwner] { return &p.SocketOwners }, func(d *Delta) *Changes[SocketOwner] { return &d.SocketOwners }),
	describe(SocketNamesTable, "", func(p *Plan) **Table[SocketName] { return &p.SocketNames }, func(d *Delta) *Changes[SocketName] { return &d.SocketNames }),
	describe(LineChecksTable, "", func(p *Plan) **Table[LineCheck] { return &p.LineChecks }, func(d *Delta) *Changes[LineCheck] { return &d.LineChecks }),
	describe(RevisionsTable, "", func(p *Plan) **Table[Revision] { return &p.Revisions }, func(d *Delta) *Changes[Revision] { return &d.Revisions }),
}

// Tables returns the descriptions of all tables in file order.
func Tables() []*TableInfo { return tables }

// TableNamed returns the description of the table with this file name.
func TableNamed(name string) (*TableInfo, bool) {
	for _, table := range tables {
		if table.Name == name {
			return table, true
		}
	}
	return nil, false
}

// Len returns the number of rows the plan holds in this table.
func (t *TableInfo) Len(p *Plan) int { return t.ops.length(p) }

// Same reports whether two plans share this table: the cheap test of "nothing here changed".
func (t *TableInfo) Same(a, b *Plan) bool { return t.ops.same(a, b) }

// Rows yields the rows in key order as values of RowType.
func (t *TableInfo) Rows(p *Plan) iter.Seq[any] { return t.ops.rows(p) }

// Has reports whether the plan holds a row with this key.
func (t *TableInfo) Has(p *Plan, key Key) bool { return t.ops.has(p, key) }

// Get returns the row with this key as a value of RowType.
func (t *TableInfo) Get(p *Plan, key Key) (any, bool) { return t.ops.get(p, key) }

// KeyOf returns the key of a row of RowType.
func (t *TableInfo) KeyOf(row any) Key { return t.ops.keyOf(row) }

// Put adds or replaces a row of RowType.
func (t *TableInfo) Put(e *Edit, row any) { t.ops.put(e, row) }

// Drop removes the row with this key and reports whether there was one.
func (t *TableInfo) Drop(e *Edit, key Key) bool { return t.ops.drop(e, key) }

// Changed returns what a delta sets and drops in this table.
func (t *TableInfo) Changed(d *Delta) (set []any, drop []Key) { return t.ops.changed(d) }

// AddSet adds a row of RowType to a delta.
func (t *TableInfo) AddSet(d *Delta, row any) { t.ops.addSet(d, row) }

// AddDrop adds a dropped key to a delta.
func (t *TableInfo) AddDrop(d *Delta, key Key) { t.ops.addDrop(d, key) }

func (t *TableInfo) equal(a, b *Plan) bool { return t.ops.equal(a, b) }

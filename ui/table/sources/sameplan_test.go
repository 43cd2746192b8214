package sources_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table/sources"
	"stageloom/ui/text"
)

// typedWords are what is typed into every field in every way, whatever it holds: most are right in some and wrong in others.
var typedWords = []string{
	"", "7", "2.5", "0", "12 ft", "3 m", "-1", "99999999", "x", "yes", "Something else", "two  words", "2031-06-18", "2031-02-31",
	strings.Repeat("x", 4001),
}

// outcome is what typing words in one way came to: the plan, or the words of the refusal.
type outcome struct {
	plan    *plan.Plan
	refusal string
}

func came(p *plan.Plan, err error) outcome {
	if err != nil {
		return outcome{refusal: err.Error()}
	}
	return outcome{plan: p}
}

func (o outcome) same(other outcome) bool {
	if o.plan == nil || other.plan == nil {
		return o.refusal == other.refusal
	}
	return plan.Equal(o.plan, other.plan)
}

// say tells an outcome where two differ.
func (o outcome) say(before *plan.Plan) string {
	if o.plan == nil {
		return "refused: " + o.refusal
	}
	return fmt.Sprintf("%+v", plan.Between(before, o.plan))
}

func do(p *plan.Plan, edit func(*plan.Edit) error) outcome {
	return came(plan.Do(p, plan.NewIDSource(8, 8), edit))
}

// onCard types into a field of the card; a list is chosen from by its words. It reports whether it can be.
func onCard(p *plan.Plan, field text.FormField, typed string) (outcome, bool) {
	if field.Choices != nil {
		at := slices.IndexFunc(field.Choices, func(o fields.Option) bool { return o.Words == typed })
		if at < 0 {
			return outcome{}, false
		}
		typed = field.Choices[at].Value
	}
	_, edit, err := field.Change(typed)
	switch {
	case err != nil:
		return outcome{refusal: err.Error()}, true
	case edit == nil:
		return outcome{plan: p}, true
	}
	return do(p, edit), true
}

// onTable types into the cell of a row, if a table of the window has one for the field.
func onTable(p *plan.Plan, ref plan.Ref, id string, units words.Units) (func(typed string) outcome, bool) {
	for _, sheet := range sources.All() {
		s := sheet.Of(assess.Of(p), sources.View{Units: units})
		for row := range s.Len() {
			if s.Ref(row) != ref {
				continue
			}
			for i, column := range s.Columns() {
				if set := s.Setter(i); column.Name == id && set != nil {
					return func(typed string) outcome {
						return do(p, func(e *plan.Edit) error { return set(e, ref, typed) })
					}, true
				}
			}
		}
	}
	return nil, false
}

// choosable are some words of a field's list, and what stands there.
func choosable(s fields.State, f *fields.Field, row any) (typed []string) {
	for i, option := range f.Options(s, row) {
		if i < 4 {
			typed = append(typed, option.Words)
		}
	}
	return append(typed, f.Text(s, row))
}

// firstRows are the first rows of a table that has fields.
func firstRows(p *plan.Plan, name string, most int) (refs []plan.Ref, rows []any) {
	table, found := plan.TableNamed(name)
	if !found {
		return []plan.Ref{{}}, []any{p.Settings}
	}
	for row := range table.Rows(p) {
		if len(refs) < most {
			refs, rows = append(refs, plan.Ref{Table: name, Key: table.KeyOf(row)}), append(rows, row)
		}
	}
	return refs, rows
}

func TestCardAndTableMakeTheSamePlanOfTheSameWords(t *testing.T) {
	p := show(t)
	a := assess.Of(p)
	compared, taken, refused := map[string]bool{}, 0, 0
	for _, units := range []words.Units{{}, feet} {
		s := fields.On(p, nil, units)
		for _, name := range fields.Tables() {
			refs, rows := firstRows(p, name, 2)
			for i, ref := range refs {
				card := text.FormOf(a, []plan.Ref{ref}, units)
				for _, f := range fields.All(name) {
					field, onForm := card.Field(f.ID)
					typeIn, inTable := onTable(p, ref, f.ID, units)
					if !onForm || !inTable {
						continue
					}
					for _, typed := range append(choosable(s, f, rows[i]), typedWords...) {
						byCard, can := onCard(p, field, typed)
						if !can {
							continue
						}
						byTable := typeIn(typed)
						require.True(t, byCard.same(byTable), "%s.%s, %.30q:\ncard  %s\ntable %s", name, f.ID, typed, byCard.say(p), byTable.say(p))
						compared[name+"."+f.ID] = true
						if byCard.plan == nil {
							refused++
						} else if !plan.Equal(byCard.plan, p) {
							taken++
						}
					}
				}
			}
		}
	}
	t.Logf("%d fields, %d taken, %d refused", len(compared), taken, refused)
	require.Greater(t, len(compared), 40)
	require.Greater(t, taken, len(compared), "next to nothing was taken")
	require.Greater(t, refused, len(compared), "next to nothing was refused")
}

// takenList is one list that is taken in: the heads that it knows, the cells without which a row is none, and how it comes into a
// plan.
type takenList struct {
	table string
	heads []exchange.Field
	needs map[string]string
	take  func(p *plan.Plan, g exchange.Grid, l exchange.Layout, units words.Units) ([]exchange.Fault, func(*plan.Edit) error)
}

func kindsOfDevice() (kinds []plan.Kind) {
	for _, built := range catalogue.DeviceKinds() {
		kinds = append(kinds, built.Kind)
	}
	return kinds
}

func lists() []takenList {
	return []takenList{
		{
			plan.ReelsTable, exchange.StockFields(),
			map[string]string{exchange.Kind: "Cat 6A", exchange.Length: "31 m"},
			func(p *plan.Plan, g exchange.Grid, l exchange.Layout, units words.Units) ([]exchange.Fault, func(*plan.Edit) error) {
				got := exchange.ReadStock(g, l, exchange.Options{Bare: units.Length, Kinds: catalogue.CableKindsFor(p), Taken: exchange.TagTaken(p)})
				return got.Faults, func(e *plan.Edit) error { return got.Add(e, catalogue.UseCable) }
			},
		},
		{
			plan.CasesTable, exchange.CaseFields(),
			map[string]string{exchange.CaseName: "Case of a list"},
			func(_ *plan.Plan, g exchange.Grid, l exchange.Layout, _ words.Units) ([]exchange.Fault, func(*plan.Edit) error) {
				got := exchange.ReadCases(g, l, nil)
				return got.Faults, got.Add
			},
		},
		{
			plan.DevicesTable, exchange.DeviceFields(),
			map[string]string{exchange.Name: "Box of a list", exchange.Kind: "Stage box 40/20", exchange.Right: "200 m", exchange.Up: "5 m"},
			func(p *plan.Plan, g exchange.Grid, l exchange.Layout, units words.Units) ([]exchange.Fault, func(*plan.Edit) error) {
				got := exchange.ReadDevices(g, l, p, exchange.DeviceOptions{Bare: units.Length, Kinds: kindsOfDevice()})
				return got.Faults, func(e *plan.Edit) error { return got.Add(e, catalogue.Use) }
			},
		},
		{
			plan.InputsTable, exchange.InputFields(),
			map[string]string{exchange.Number: "9", exchange.Name: "Input of a list"},
			func(_ *plan.Plan, g exchange.Grid, l exchange.Layout, _ words.Units) ([]exchange.Fault, func(*plan.Edit) error) {
				got := exchange.ReadInputs(g, l, 0)
				return got.Faults, func(e *plan.Edit) error { return got.Add(e, "") }
			},
		},
	}
}

// with takes a list of one row in: the cells that it needs and one more. A refusal is the words of the cell alone.
func (l takenList) with(p *plan.Plan, name, typed string, units words.Units) outcome {
	var layout exchange.Layout
	var heads, cells []string
	for _, head := range l.heads {
		cell, needed := l.needs[head.Name]
		if head.Name == name {
			cell, needed = typed, true
		}
		if needed {
			heads, cells = append(heads, head.Name), append(cells, cell)
			layout.Fields = append(layout.Fields, head.Name)
		}
	}
	layout.Head = 1
	faults, add := l.take(p, exchange.Grid{Rows: [][]string{heads, cells}}, layout, units)
	if len(faults) > 0 {
		return outcome{refusal: faults[0].Words}
	}
	return do(p, add)
}

// comes says what rows of a plan hold in words: what two ways made alike, whatever ids new rows got.
func comes(p *plan.Plan, table string, units words.Units) (said []string) {
	s := fields.On(p, nil, units)
	for _, name := range []string{table, plan.CasesTable, plan.PositionsTable} {
		_, rows := firstRows(p, name, 100)
		for _, row := range rows {
			line := name
			for _, f := range fields.All(name) {
				line += " | " + f.Text(s, row)
			}
			said = append(said, line)
		}
	}
	slices.Sort(said)
	return said
}

// listsDiffer says of fields in which a list and the table may part, and why.
var listsDiffer = map[string]string{
	"reels.kind":       "the dialog of the list asks what words mean that no kind bears",
	"devices.kind":     "the dialog of the list asks what words mean that no kind bears",
	"reels.condition":  "a list reads conditions in the words of several languages, and asks about others",
	"reels.state":      "a list reads states in the words of several languages, and asks about others",
	"reels.owner":      "the dialog of the list asks whether an owner is the house itself",
	"reels.weight":     "the dialog of the list asks whether a weight without a unit is in kilograms",
	"reels.state_on":   "a column without days is another column, so a list takes no day in words",
	"reels.return":     "a column without days is another column, so a list takes no day in words",
	"reels.found_on":   "a column without days is another column, so a list takes no day in words",
	"reels.bought":     "a column without days is another column, so a list takes no day in words",
	"devices.position": "a list makes the positions that it names",
	"inputs.right":     "a list reads its right sides after all rows, and tells of those that it finds none for",
	"inputs.use":       "a list reads a type in the words of several languages too",
}

// listsNote says of fields of which a list keeps in the note what it cannot place.
var listsNote = map[string]string{
	"inputs.snake": "a sub-snake without a socket, or one that the plan has not, is told and noted",
	"inputs.way":   "a socket without a sub-snake, or one that it has not, is told and noted",
}

// requireAlike compares what a list and the table made of the same words. A blank cell of a list says nothing, so that one which
// either of them refuses is not compared.
func requireAlike(t *testing.T, what, typed string, byList, byTable outcome, before *plan.Plan, table string, units words.Units) {
	t.Helper()
	require.NotRegexp(t, `\b[a-z]-[2-9a-z]{5}\b`, byList.refusal+" "+byTable.refusal, "no refusal shows an id")
	both := fmt.Sprintf("%s, %.30q:\nlist  %s\ntable %s", what, typed, byList.say(before), byTable.say(before))
	switch {
	case typed == "" && (byList.plan == nil || byTable.plan == nil):
		return
	case byList.plan == nil && byTable.plan == nil:
		require.True(t, strings.HasPrefix(byTable.refusal, byList.refusal) || listsDiffer[what] != "", both)
	case byList.plan == nil || byTable.plan == nil:
		require.NotEmpty(t, listsDiffer[what]+listsNote[what], both)
	case listsNote[what] != "" && !plan.Equal(byList.plan, byTable.plan):
		require.Contains(t, strings.Join(comes(byList.plan, table, units), "\n"), typed, "the list drops nothing")
	default:
		require.Equal(t, comes(byTable.plan, table, units), comes(byList.plan, table, units), both)
	}
}

// newRow is the row of a table that one plan has and another has not.
func newRow(before, after *plan.Plan, name string) (ref plan.Ref, row any) {
	table, _ := plan.TableNamed(name)
	for each := range table.Rows(after) {
		if _, old := table.Get(before, table.KeyOf(each)); !old {
			ref, row = plan.Ref{Table: name, Key: table.KeyOf(each)}, each
		}
	}
	return ref, row
}

func TestAListMakesTheSamePlanAsTheTableOfTheSameWords(t *testing.T) {
	p := show(t)
	compared, taken, refused := map[string]bool{}, 0, 0
	for _, units := range []words.Units{{}, feet} {
		for _, l := range lists() {
			before := l.with(p, "", "", units).plan
			require.NotNil(t, before, l.table)
			ref, row := newRow(p, before, l.table)
			s := fields.On(before, nil, units)
			card := text.FormOf(assess.Of(before), []plan.Ref{ref}, units)
			for _, head := range l.heads {
				f, known := fields.Called(l.table, head.Name)
				if head.Name == exchange.Name {
					f, known = fields.Of(l.table, "name"), true
				}
				if !known {
					continue
				}
				typeIn, inTable := onTable(before, ref, f.ID, units)
				if !inTable {
					field, onForm := card.Field(f.ID)
					require.True(t, onForm, "%s.%s is in lists alone", l.table, f.ID)
					typeIn = func(typed string) outcome { came, _ := onCard(before, field, typed); return came }
				}
				for _, typed := range append(choosable(s, f, row), typedWords...) {
					byList := l.with(p, head.Name, typed, units)
					requireAlike(t, l.table+"."+f.ID, typed, byList, typeIn(typed), before, l.table, units)
					compared[l.table+"."+f.ID] = true
					if byList.plan == nil {
						refused++
					} else if !plan.Equal(byList.plan, before) {
						taken++
					}
				}
			}
		}
	}
	t.Logf("%d fields, %d taken, %d refused", len(compared), taken, refused)
	require.Greater(t, len(compared), 20)
	require.Greater(t, taken, len(compared), "next to nothing was taken")
	require.Greater(t, refused, len(compared), "next to nothing was refused")
}

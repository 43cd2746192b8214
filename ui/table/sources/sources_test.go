package sources_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// golden compares with a text that somebody has looked at.
func golden(t *testing.T, name, text string) {
	t.Helper()
	goldentest.Text(t, filepath.Join("testdata", name+".txt"), text)
}

// show is a small plan with a row in every table: two links, one too short by half and one of two reels, a house line,
// stock in a case, inputs and outputs, a level.
func show(t *testing.T) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("Barn dance"), plan.NewIDSource(7, 7), func(e *plan.Edit) error {
		for _, kind := range []plan.KindID{"stagebox-40-20", "console-56"} {
			require.NoError(t, catalogue.Use(e, kind))
		}
		for _, kind := range []plan.CableKindID{"cat6a", "cat5e"} {
			require.NoError(t, catalogue.UseCable(e, kind))
		}
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Balcony", Height: 4})
		stage := e.AddPosition(plan.Position{Name: "Stage left", X: -5, Y: 2, Width: 6, Depth: 4, Supply: "stage", Exposure: "indoors"})
		tower := e.AddPosition(plan.Position{Name: "FOH tower", X: 60, Y: 0, Width: 4, Depth: 4, Supply: "house"})
		box := e.AddDevice(plan.Device{Name: "Stage box", Kind: "stagebox-40-20", Position: stage, X: -5, Y: 2})
		desk := e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56", Position: tower, X: 60, Note: "own riser"})
		chest := e.AddCase(plan.Case{Name: "Case 1"})
		first := e.AddReel(plan.Reel{Tag: "X60-01", Kind: "cat6a", Length: 60, Case: chest, Condition: plan.Suspect, Reason: "bent plug"})
		e.AddReel(plan.Reel{Kind: "cat5e", Length: 20, Quantity: 4, Owner: "hire"})
		tie := e.AddHouseLine(plan.HouseLine{Name: "H1", Kind: "cat6a", Length: 30, FromPanel: "Pit 3", ToPanel: "Booth", FromPosition: stage})
		main := e.AddLink(plan.Link{Name: "L1", Transport: "aes50", From: box, FromPort: "AES50 1", To: desk, ToPort: "AES50 1", Way: "straight", RiseTo: 4, FillKind: "cat6a", Colour: "red"})
		backup := e.AddLink(plan.Link{Name: "L2", Transport: "aes50", From: box, FromPort: "AES50 2", To: desk, ToPort: "AES50 2", Way: "straight", WantedMargin: plan.Some(2), Note: "along the wall"})
		e.SetSegments(main, []plan.Segment{{Reel: first, Kept: true}, {Kind: "cat5e", Length: 45, Coupler: "cat5e"}})
		e.SetSegments(backup, []plan.Segment{{HouseLine: tie}})
		act := plan.Act{ID: "n-22222", Name: "The Hay Bales", Order: 1}
		plan.Put(e, act)
		kick := e.AddInput(plan.Input{Number: 1, Name: "Kick in", Source: "boundary", Use: "mic", Phantom: true, Riser: "drums"})
		e.AddInput(plan.Input{Number: 2, Name: "Fiddle", Use: "DI", Act: act.ID, Snake: box, SnakeWay: 3})
		plan.Put(e, plan.StagePatch{Input: kick, Device: box, Socket: 1})
		left := e.AddOutput(plan.Output{Number: 1, Name: "Main left"})
		plan.Put(e, plan.OutputPatch{Output: left, Console: desk, Device: box, Socket: 1})
		return e.Pair(main, backup)
	})
	require.NoError(t, err)
	return p
}

var feet = words.Units{Length: quantity.Imperial, Temperature: quantity.Imperial}

// told is a table as a person reads it, all columns shown: a line a row, a block a column set.
func told(s table.Source) string {
	var b strings.Builder
	_, many := s.Words()
	fmt.Fprintf(&b, "%d %s\n", s.Len(), many)
	for row := range s.Len() {
		fmt.Fprintf(&b, "\n%s, shows %d\n", s.RowName(row), len(s.Shows(row)))
		for i, column := range s.Columns() {
			cell, typed := s.Cell(row, i), " "
			if s.Setter(i) != nil {
				typed = "✎"
			}
			line := fmt.Sprintf("  %-18s %s %s", column.Title, typed, cell.Text)
			if cell.Tone != table.Usual {
				line += "   [" + string(cell.Tone) + "]"
			}
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	return b.String()
}

func TestTables(t *testing.T) {
	a := assess.Of(show(t))
	for _, sheet := range sources.All() {
		if sheet.Name == "findings" {
			continue // what is found is for the rules' own tests
		}
		t.Run(sheet.Name, func(t *testing.T) {
			golden(t, strings.ReplaceAll(sheet.Name, " ", "-"), told(sheet.Of(a, sources.View{})))
			golden(t, strings.ReplaceAll(sheet.Name, " ", "-")+"-feet", told(sheet.Of(a, sources.View{Units: feet})))
		})
	}
}

func TestEveryTableSaysWhatToDoFirstAndWhatItsColumnsHold(t *testing.T) {
	empty := assess.Of(plan.New("New"))
	names := map[string]bool{}
	for _, sheet := range sources.All() {
		s := sheet.Of(empty, sources.View{})
		require.Equal(t, sheet.Name, s.Name())
		require.Zero(t, s.Len())
		require.NotEmpty(t, s.Empty())
		require.False(t, names[sheet.Name])
		names[sheet.Name] = true
		titles := map[string]bool{}
		for _, column := range s.Columns() {
			require.NotEmpty(t, column.Help, "%s of %s", column.Title, sheet.Name)
			require.False(t, titles[column.Title], "%s twice in %s", column.Title, sheet.Name)
			require.False(t, titles[column.Name])
			require.NotContains(t, column.Name, "|", "it stands in the preferences between bars")
			titles[column.Title], titles[column.Name] = true, true
		}
	}
	_, found := sources.Named("nothing")
	require.False(t, found)
}

// set types into the cell of a row, and returns the plan after it.
func set(t *testing.T, p *plan.Plan, sheet, row, column, typed string, units words.Units) (*plan.Plan, error) {
	t.Helper()
	chosen, found := sources.Named(sheet)
	require.True(t, found)
	s := chosen.Of(assess.Of(p), sources.View{Units: units})
	for at := range s.Len() {
		if s.RowName(at) != row {
			continue
		}
		for i, c := range s.Columns() {
			if c.Name == column {
				return plan.Do(p, plan.NewIDSource(8, 8), func(e *plan.Edit) error { return s.Setter(i)(e, s.Ref(at), typed) })
			}
		}
	}
	t.Fatalf("there is no %s of %s in %s", column, row, sheet)
	return nil, nil
}

// cell is what stands in a cell.
func cell(p *plan.Plan, sheet, row, column string) string {
	chosen, _ := sources.Named(sheet)
	s := chosen.Of(assess.Of(p), sources.View{})
	for at := range s.Len() {
		for i, c := range s.Columns() {
			if s.RowName(at) == row && c.Name == column {
				return s.Cell(at, i).Text
			}
		}
	}
	return "no such cell"
}

func TestCellsAreTypedAsPeopleWrite(t *testing.T) {
	p := show(t)
	for _, c := range []struct{ name, sheet, row, column, typed, want string }{
		{"a length with its unit", "links", "L1", "rise_from", "12ft", "3.7 m"},
		{"a decimal comma", "links", "L1", "rise_from", "1,5 m", "1.5 m"},
		{"a blank length is none", "links", "L1", "rise_to", "", ""},
		{"a temperature in the other unit", "links", "L1", "temperature", "86 °F", "30 °C"},
		{"a share", "links", "L1", "slack", "12,5 %", "12.5 %"},
		{"a blank share is the plan's", "links", "L1", "slack", "", ""},
		{"decibels", "links", "L2", "wanted", "3", "3.0 dB"},
		{"a kind by the beginning of its name", "links", "L2", "fill", "cat 5e, own", "Cat 5e, own figure 22.5"},
		{"what is done on site, by its first letter", "links", "L1", "done", "j", "joined"},
		{"what was moved since, as it is shown", "links", "L1", "done", "tested ?", "tested"},
		{"nothing done", "links", "L1", "done", "", ""},
		{"a name without blanks around", "links", "L2", "name", "  L 7 ", "no such cell"},
		{"a reel's length", "stock", "X60-01", "length", "148 ft", "45.11 m"},
		{"a case that is new", "stock", "X60-01", "case", "Case 9", "Case 9"},
		{"a case that is there", "stock", "X60-01", "case", "case 1", "Case 1"},
		{"a condition by its letter", "stock", "X60-01", "condition", "f", "faulty"},
		{"a measured loss", "stock", "X60-01", "measured", "11.5 dB", "11.5 dB"},
		{"a place", "devices", "FOH", "x", "-20 ft", "−6.1 m"},
		{"a position by name", "devices", "FOH", "position", "stage", "Stage left"},
		{"none", "devices", "FOH", "position", "", ""},
		{"an exposure", "devices", "FOH", "exposure", "su", "sun"},
		{"a level", "positions", "FOH tower", "level", "balcony", "Balcony"},
		{"a cable's length", "cables", "cable 2 of L1", "length", "50", "50 m"},
		{"a cable of another kind", "cables", "cable 2 of L1", "kind", "Cat 6A", "Cat 6A"},
		{"a coupler", "cables", "cable 2 of L1", "coupler", "cat 6a", "Cat 6A hardware"},
		{"the plan's coupler", "cables", "cable 2 of L1", "coupler", "", ""},
		{"no reel any more", "cables", "cable 1 of L1", "reel", "", ""},
		{"a house line's panel", "house lines", "H1", "to_panel", "Booth 2", "Booth 2"},
		{"48 V", "inputs", "input 2 Fiddle", "phantom", "yes", "yes"},
		{"no 48 V", "inputs", "input 1 Kick in", "phantom", "", ""},
		{"how it is plugged", "inputs", "input 2 Fiddle", "use", "l", "line"},
		{"an act", "inputs", "input 1 Kick in", "act", "the hay", "The Hay Bales"},
		{"a note with its line ends", "outputs", "output 1 Main left", "note", "a\nb", "a\nb"},
	} {
		t.Run(c.name, func(t *testing.T) {
			after, err := set(t, p, c.sheet, c.row, c.column, c.typed, words.Units{})
			require.NoError(t, err)
			require.Equal(t, c.want, cell(after, c.sheet, c.row, c.column))
		})
	}
}

func TestWhatCannotStandSaysWhatToWrite(t *testing.T) {
	p := show(t)
	for _, c := range []struct{ name, sheet, row, column, typed, want string }{
		{"a unit that is none", "links", "L1", "rise_from", "3 parsec", "no unit of length"},
		{"a length out of all bounds", "links", "L1", "rise_from", "600 m", "lies between 0 m and 500 m"},
		{"a temperature no cable has", "links", "L1", "temperature", "90 °C", "between −20 °C and 60 °C"},
		{"a share over the whole", "links", "L1", "slack", "120", "between 0 % and 100 %"},
		{"no share at all", "links", "L1", "slack", "much", "write it as 10 %"},
		{"no name", "links", "L1", "name", " ", "this cannot be left blank"},
		{"a name without end", "links", "L1", "name", strings.Repeat("x", 201), "at most 200"},
		{"a number that is none", "links", "L1", "priority", "high", "no whole number from 1 to 9"},
		{"a kind that may be several", "links", "L1", "fill", "cat", "write more of it"},
		{"a word that is none of the list", "inputs", "input 1 Kick in", "use", "tube", "none of mic, DI, line"},
		{"a blank where a word must stand", "stock", "X60-01", "condition", "", "it cannot be blank"},
		{"a reel without length", "stock", "X60-01", "length", "", "a figure is needed"},
		{"many of one tag", "stock", "X60-01", "count", "3", "one cable with a tag of its own"},
		{"fewer than lie in links", "stock", "X60-01", "count", "0", "no whole number from 1"},
		{"a reel's length in a link", "cables", "cable 1 of L1", "length", "5", "reel of the stock"},
		{"a house line's kind in a link", "cables", "cable 1 of L2", "kind", "Cat 5e", "house line"},
		{"a reel that lies elsewhere", "cables", "cable 2 of L1", "reel", "X60-01", "lies in another link already"},
		{"a coupler before the first cable", "cables", "cable 1 of L1", "coupler", "cat 6a", "no coupler"},
		{"a kind without the ports", "devices", "FOH", "kind", "intercom main", "which the new kind has not"},
		{"number nought", "outputs", "output 1 Main left", "number", "0", "from 1 to 9999"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := set(t, p, c.sheet, c.row, c.column, c.typed, words.Units{})
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestBareNumbersAreReadInTheUnitsShown(t *testing.T) {
	p := show(t)
	after, err := set(t, p, "stock", "X60-01", "length", "100", feet)
	require.NoError(t, err)
	require.Equal(t, "30.48 m", cell(after, "stock", "X60-01", "length"))
	after, err = set(t, p, "links", "L1", "temperature", "86", feet)
	require.NoError(t, err)
	require.Equal(t, "30 °C", cell(after, "links", "L1", "temperature"))
}

func TestWhatACellSaysCanBeTypedInto(t *testing.T) {
	p := show(t)
	for _, units := range []words.Units{{}, feet} {
		a := assess.Of(p)
		for _, sheet := range sources.All() {
			s := sheet.Of(a, sources.View{Units: units})
			for row := range s.Len() {
				for i, column := range s.Columns() {
					if s.Setter(i) == nil || sheet.Name == "cables" && column.Name != "kept" && column.Name != "reel" {
						continue // a reel's figures are not the link's to change
					}
					text := s.Cell(row, i).Text
					_, err := plan.Do(p, plan.NewIDSource(8, 8), func(e *plan.Edit) error { return s.Setter(i)(e, s.Ref(row), text) })
					if sheet.Name == "cables" && s.Cell(row, 2).Text == "H1" {
						continue // a house line is not taken by its name
					}
					require.NoError(t, err, "%q as %s of %s", text, column.Title, s.RowName(row))
				}
			}
		}
	}
}

func TestAPositionTypedElsewhereTakesItsDevicesAlong(t *testing.T) {
	after, err := set(t, show(t), "positions", "FOH tower", "x", "80 m", words.Units{})
	require.NoError(t, err)
	require.Equal(t, "80 m", cell(after, "devices", "FOH", "x"))
}

func TestRowsAreAddedAndRemovedWhereTheyMayBe(t *testing.T) {
	for _, sheet := range sources.All() {
		p := show(t)
		s := sheet.Of(assess.Of(p), sources.View{})
		grower := s.(table.Grower)
		if add := grower.Adder(); add != nil {
			var ref plan.Ref
			for _, from := range []*plan.Plan{plan.New("New"), p} {
				next, err := plan.Do(from, plan.NewIDSource(9, 9), func(e *plan.Edit) (err error) {
					ref, err = add(e, s.Ref(0))
					return err
				})
				if sheet.Name == "house lines" && from != p {
					require.ErrorContains(t, err, "ask the venue", "of what lies elsewhere nothing is guessed")
					continue
				}
				require.NoError(t, err, sheet.Name)
				require.True(t, ref.Exists(next), sheet.Name)
			}
		}
		if remove := grower.Remover(); remove != nil {
			var refs []plan.Ref
			for row := range s.Len() {
				refs = append(refs, s.Ref(row))
			}
			next, err := plan.Do(p, plan.NewIDSource(9, 9), func(e *plan.Edit) error { return remove(e, refs) })
			require.NoError(t, err, sheet.Name)
			require.Zero(t, sheet.Of(assess.Of(next), sources.View{}).Len(), sheet.Name)
		}
	}
}

func TestFindingsStandTheWorstFirst(t *testing.T) {
	p, err := plan.Do(show(t), nil, func(e *plan.Edit) error {
		for input := range e.Now().Inputs.All() {
			e.RemoveInput(input.ID)
		}
		for output := range e.Now().Outputs.All() {
			e.RemoveOutput(output.ID)
		}
		return nil
	})
	require.NoError(t, err)
	golden(t, "findings", told(sources.Findings(assess.Of(p), words.Units{})))
}

func TestAFindingKnowsItsPlaces(t *testing.T) {
	a := assess.Of(show(t))
	s := sources.Findings(a, words.Units{})
	require.NotZero(t, s.Len())
	refs := map[plan.Ref]bool{}
	for row := range s.Len() {
		finding, found := sources.FindingAt(s, row)
		require.True(t, found)
		require.Len(t, s.Shows(row), len(finding.Where))
		require.False(t, refs[s.Ref(row)], "no two findings are one row")
		refs[s.Ref(row)] = true
	}
	require.Contains(t, told(s), "L1, X60-01", "a reel goes by its tag")
	_, found := sources.FindingAt(sources.Links(a, words.Units{}), 0)
	require.False(t, found)
}

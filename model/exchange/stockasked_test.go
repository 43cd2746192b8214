package exchange_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

func TestAUnitBesideALengthIsReadRowByRow(t *testing.T) {
	for _, head := range []string{"Unit", "U", "Einheit", "ft/m", "UoM"} {
		s := stock(t, "Kind;Length;"+head+";Nominal\nCat 6A;500;ft;500\nCat 6A;200;Fuß;\nCat 6;20;m;\nCat 6;20 m;m;\nCat 6;12 x 50;ft;\n", options)
		require.Empty(t, faults(s.Faults), head)
		require.Empty(t, s.Unknown)
		require.InDelta(t, 152.4, s.Rows[0].Reels[0].Length, 1e-9)
		require.InDelta(t, 152.4, s.Rows[0].Reels[0].Nominal, 1e-9)
		length := s.Rows[1].Reels[0].Length
		require.Equal(t, 60.96, length)
		require.Equal(t, "60.96 m", words.Units{}.Piece(length))
		require.Equal(t, "200 ft", words.Units{Length: quantity.Imperial}.Piece(length))
		require.Equal(t, 20.0, s.Rows[2].Reels[0].Length)
		require.Equal(t, plan.Reel{Kind: "cat6", Length: 15.24, Quantity: 12}, s.Rows[4].Reels[0])
	}
	s := stock(t, "Kind;Length;Unit\nCat 6;20;m\nCat 6;20;rods\nCat 6;20;\nCat 6;20 m;ft\nCat 6;20 ft;\n", options)
	require.Equal(t, []string{
		`row 3, column C "Unit": "rods" is no unit of length that is known here: say what it means`,
		`row 4, column C "Unit": no unit is written, but other rows have one`,
		`row 5, column B "Length": "20 m" is in m, but its unit is ft`,
	}, faults(s.Faults))
	require.Equal(t, []string{"unit: rods ×1"}, askedOf(s))
	require.InDelta(t, 6.096, s.Rows[1].Reels[0].Length, 1e-9)
	s = stock(t, "Kind;Length;Unit\nCat 6;20;pcs\nCat 6;20;Stück\n", options)
	require.Empty(t, faults(s.Faults), "what is counted has no unit of length")
	require.Equal(t, 20.0, s.Rows[1].Reels[0].Length)
}

func TestAWordThatIsNoKnownConditionIsAskedAndNeverGood(t *testing.T) {
	for _, head := range []string{"Condition", "Cond.", "Cond", "Cnd", "Zust.", "État", "Status"} {
		s := stock(t, "Kind;Length;"+head+"\nCat 6A;50;bent pin\nCat 6A;50;ok\nCat 6A;50;Defekt\nCat 6A;50;à vérifier\nCat 6A;50;in Reparatur\n"+
			"Cat 6A;50;Bent  Pin\nCat 6A;50;perdu\n", options)
		require.Equal(t, []string{"condition: bent pin ×2"}, askedOf(s), head)
		require.Len(t, s.Rows, 5)
		require.Equal(t, "faulty", s.Rows[1].Reels[0].Condition)
		require.Equal(t, "suspect", s.Rows[2].Reels[0].Condition)
		require.Equal(t, plan.InRepair, s.Rows[3].Reels[0].State)
		require.Equal(t, plan.Missing, s.Rows[4].Reels[0].State)
	}
	answered := options
	answered.Means = map[exchange.Said]string{exchange.SaidOf(exchange.OfCondition, "bent pin"): "suspect"}
	s := stock(t, "Kind;Length;Cond.\nCat 6A;50;Bent pin\n", answered)
	require.Empty(t, s.Faults)
	require.Equal(t, "suspect", s.Rows[0].Reels[0].Condition)
	require.Equal(t, "Bent pin", s.Rows[0].Reels[0].Reason, "what was found stays")
	answered.Means[exchange.SaidOf(exchange.OfCondition, "bent pin")] = exchange.LeaveOut
	s = stock(t, "Kind;Length;Cond.;Tag\nCat 6A;50;Bent pin;A1\nCat 6A;50;;A1\n", answered)
	require.Empty(t, faults(s.Faults), "a row that is left out has no tag")
	require.Len(t, s.Rows, 1)
	require.Equal(t, []string{`row 2: left out, as was said of "Bent pin"`}, faults(s.Told))
}

func TestOwnersThatMayBeTheHouseAreAskedAboutOnce(t *testing.T) {
	text := "Kind;Length;Owner;Hire ref\nCat 6A;50;us;\nCat 6A;50;Riverside;\nCat 6A;50;riverside;\nCat 6A;50;Lender;H 7\nCat 6A;50;Lender;\nCat 6A;50;;\n"
	s := stock(t, text, options)
	require.Equal(t, []string{"owner: us ×1", "owner: Riverside ×2"}, askedOf(s))
	require.Equal(t, exchange.HouseItself, s.Unknown[0].Likely)
	answered := options
	answered.Means = map[exchange.Said]string{
		exchange.SaidOf(exchange.OfOwner, "us"): exchange.HouseItself, exchange.SaidOf(exchange.OfOwner, "Riverside"): exchange.HouseItself,
	}
	s = stock(t, text, answered)
	require.Empty(t, faults(s.Faults))
	var owners []string
	for _, row := range s.Rows {
		owners = append(owners, row.Reels[0].Owner)
	}
	require.Equal(t, []string{"", "", "", "Lender", "Lender", ""}, owners)
}

func TestWeightServiceAndStateAreRead(t *testing.T) {
	s := stock(t, "Kind;Length;Weight (lb);Last service;Service note;Serviced by;State;State since;Tied into;Purchase date\n"+
		"Cat 6A;50;10;3.2.2027;ends renewed;Ada;missing;2027-02-04;Main loom;15.3.2024\nCat 6A;50;4,5 kg;2027-02-03;;;;;;\nCat 6A;50;;;no day;;;;;\n", options)
	require.Equal(t, []string{`row 4, column D "Last service": a service has no day: write it as year-month-day, for instance 2027-06-22`}, faults(s.Faults))
	require.Equal(t, plan.Reel{
		Kind: "cat6a", Length: 50, Weight: plan.Some(4.5359237), State: plan.Missing, StateOn: "2027-02-04", TiedInto: "Main loom", Bought: "2024-03-15",
	}, s.Rows[0].Reels[0])
	require.Equal(t, plan.Service{Day: "2027-02-03", Work: "ends renewed", By: "Ada"}, s.Rows[0].Service)
	require.Equal(t, plan.Some(4.5), s.Rows[1].Reels[0].Weight)
	require.Equal(t, "service", s.Rows[1].Service.Work)
	bare := "Kind;Length;Gewicht\nCat 6A;50;4,5\n"
	s = stock(t, bare, options)
	require.Equal(t, []string{"weight: Gewicht ×1"}, askedOf(s), "a weight without a unit is asked about")
	answered := options
	answered.Means = map[exchange.Said]string{exchange.SaidOf(exchange.OfWeight, "Gewicht"): "kg"}
	require.Equal(t, plan.Some(4.5), stock(t, bare, answered).Rows[0].Reels[0].Weight)
}

func TestColumnsThatAreNotReadAreToldAndCanGoIntoTheNote(t *testing.T) {
	grid := read(t, "Kind;Length;Rating;Colour;Q;Empty;Dim;Whose\nCat 6A;50;OK;red;1;;ft;us\nCat 6A;50;bent pin;blue;2;;m;us\nCat 6A;50;;green;2;;m;us\nCat 6A;50;;white;2;;m;us\n").Grids[0]
	layout := exchange.Guess(grid, exchange.StockFields())
	require.Equal(t, []exchange.Unread{
		{Column: 2, Head: "Rating", Examples: []string{"OK", "bent pin"}, Likely: exchange.Condition},
		{Column: 3, Head: "Colour", Examples: []string{"red", "blue", "green"}},
		{Column: 4, Head: "Q", Examples: []string{"1", "2"}},
		{Column: 6, Head: "Dim", Examples: []string{"ft", "m"}, Likely: exchange.Unit},
		{Column: 7, Head: "Whose", Examples: []string{"us"}, Likely: exchange.Owner},
	}, exchange.UnreadOf(grid, layout))
	layout = layout.Set(3, exchange.IntoNote).Set(4, exchange.IntoNote).Set(2, exchange.PassOver)
	require.Len(t, exchange.UnreadOf(grid, layout), 2)
	s := exchange.ReadStock(grid, layout, options)
	require.Equal(t, "Colour: red\nQ: 1", s.Rows[0].Reels[0].Note)
}

func TestRowsThatAreNoCablesAreTold(t *testing.T) {
	s := stock(t, "Our list;of May\nKind;Length;Colour\nDRUMS;;\nCat 6A;50;\n;;red\nCat 6A;;\n", options)
	require.Equal(t, []string{
		`row 1: "Our list" stands above the column heads`,
		`row 5: "red" stands in no column that is read`,
		`row 3: "DRUMS" stands alone in its row: a heading, and no cable`,
	}, faults(s.Told))
	require.Len(t, s.Rows, 1)
	require.Len(t, s.Faults, 1, "a kind alone lacks its length")
}

func TestTheSameListAgainDoublesNothingAndBringsUpToDate(t *testing.T) {
	text := "Kind,Length,Quantity,Tag,Cond,Case,Last service\nCat 6A,50,,A1,,Case 1,2027-02-03\nCat 6A,50,,A2,ok,,\nCat 6,20,12,,,,\n"
	p, err := added(t, plan.New("x"), stock(t, text, options))
	require.NoError(t, err)
	u := stock(t, text, options).Against(p, words.Units{}, false)
	require.Equal(t, []int{14, 12, 0, 0}, []int{u.Same, u.Alike, len(u.Changed), len(u.New.Rows)})
	require.Len(t, stock(t, text, options).Against(p, words.Units{}, true).New.Rows, 1, "more of them, as the user says")
	p, err = plan.Do(p, plan.NewIDSource(5, 6), func(e *plan.Edit) error {
		for reel := range p.Reels.All() {
			if reel.Tag == "A1" {
				_, err := e.MarkReel(reel.ID, plan.Mark{Condition: plan.Faulty, Reason: "core"})
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	next := "Kind,Length,Quantity,Tag,Cond,Case,Last service\nCat 6A,43,,A1,,Case 2,2027-05-06\nCat 6A,50,,A2,defekt,,\nCat 6,20,11,,,,\nCat 6,30,,A3,,,\n"
	u = stock(t, next, options).Against(p, words.Units{}, false)
	var said []string
	for _, change := range u.Changed {
		for _, field := range change.Fields {
			said = append(said, change.Name+" "+field.Name+": "+field.Was+" → "+field.Is)
		}
	}
	require.Equal(t, []string{
		"A1 Length: 50 m → 43 m", "A1 Case: Case 1 → Case 2", "A1 Last service: 2027-02-03 → 2027-05-06",
		"A2 Condition: good → faulty", "Cat 6 20 m Quantity: 12 → 11",
	}, said)
	p, err = plan.Do(p, plan.NewIDSource(7, 8), func(e *plan.Edit) error { return u.Add(e, use) })
	require.NoError(t, err)
	require.Equal(t, 4, p.Reels.Len())
	require.Equal(t, 2, p.Services.Len())
	for reel := range p.Reels.All() {
		if reel.Tag == "A1" {
			require.Equal(t, []any{43.0, plan.Faulty, "core"}, []any{reel.Length, reel.Condition, reel.Reason}, "a blank cell says nothing")
		}
	}
	u = stock(t, next, options).Against(p, words.Units{}, false)
	require.Equal(t, []int{14, 0, 0}, []int{u.Same, len(u.Changed), len(u.New.Rows)})
}

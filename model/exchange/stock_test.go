package exchange_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

var kinds = []plan.CableKind{
	{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"},
	{ID: "cat6", Name: "Cat 6", Media: "balanced-pair", Category: "cat6"},
}

var options = exchange.Options{Kinds: kinds}

func stock(t testing.TB, text string, o exchange.Options) exchange.Stock {
	t.Helper()
	grid := read(t, text).Grids[0]
	return exchange.ReadStock(grid, exchange.Guess(grid, exchange.StockFields()), o)
}

func reels(s exchange.Stock) (all [][]plan.Reel) {
	for _, row := range s.Rows {
		all = append(all, row.Reels)
	}
	return all
}

// askedOf are the words that are asked about, with what for and in how many rows.
func askedOf(s exchange.Stock) (all []string) {
	for _, u := range s.Unknown {
		all = append(all, fmt.Sprintf("%s: %s ×%d", u.For, u.Word, u.Rows))
	}
	return all
}

func faults(faults []exchange.Fault) (all []string) {
	for _, fault := range faults {
		all = append(all, fault.String())
	}
	return all
}

func TestAStockListIsReadWithEveryField(t *testing.T) {
	s := stock(t, "Our stock of this summer;;;;;;;;;;;;;;\n"+
		"Type;Length [m];Qty;Asset tag;Flight case;Owner;Hire ref;Return date;Status;Fault;Found where;Found on;Loss (dB);Nominal length;Remarks\n"+
		"CAT-6A;49,5;;R07;Case 1;hire;H 112;22.06.2031;broken;core broken;FOH;18/6/2031;10,2 dB;50;test it\n"+
		"\n"+
		"cat6;164 ft;12;;case 1;;;;;;;;;;\n", options)
	require.Empty(t, faults(s.Faults))
	require.Equal(t, [][]plan.Reel{
		{{
			Tag: "R07", Kind: "cat6a", Length: 49.5, Owner: "hire", Hire: "H 112", Return: "2031-06-22", Condition: "faulty",
			Reason: "core broken", FoundAt: "FOH", FoundOn: "2031-06-18", Measured: plan.Some(10.2), Nominal: 50, Note: "test it",
		}},
		{{Kind: "cat6", Length: 164 * 0.3048, Quantity: 12}},
	}, reels(s))
	require.Equal(t, []int{3, 5}, []int{s.Rows[0].Row, s.Rows[1].Row})
	require.Equal(t, []string{"Case 1", "case 1"}, []string{s.Rows[0].Case, s.Rows[1].Case})
	rows, cables := s.Count()
	require.Equal(t, []int{2, 13}, []int{rows, cables})
}

func TestTwelveTimesFiftyMetresInOneCellIsEnough(t *testing.T) {
	s := stock(t, "12 x 50 m Cat 6A\n3 × 20 m Cat 6\n", options)
	require.Empty(t, faults(s.Faults))
	require.Equal(t, plan.Reel{Kind: "cat6a", Length: 50, Quantity: 12}, s.Rows[0].Reels[0])
	require.Equal(t, plan.Reel{Kind: "cat6", Length: 20, Quantity: 3}, s.Rows[1].Reels[0])
	s = stock(t, "Length\n12 x 50 m\n1 x 20\n", exchange.Options{Kinds: kinds, Blank: "cat6", Bare: quantity.Imperial})
	require.Empty(t, faults(s.Faults))
	require.Equal(t, plan.Reel{Kind: "cat6", Length: 20 * 0.3048}, s.Rows[1].Reels[0])
}

func TestAnAmountIsReadAsPeopleTypeIt(t *testing.T) {
	for text, want := range map[string]exchange.Amount{
		"12 x 50 m":            {12, 50, ""},
		"12x50m":               {12, 50, ""},
		"12 × 50":              {12, 50, ""},
		"50 m x 12":            {12, 50, ""},
		"12 pcs 50 m":          {12, 50, ""},
		"50":                   {0, 50, ""},
		"1,5 km":               {0, 1500, ""},
		"100 ft":               {0, 30.48, ""},
		"2 x 100' Cat 6":       {2, 30.48, "Cat 6"},
		"12' 6\" tail":         {0, 3.81, "tail"},
		"2 x 12'6\"":           {2, 3.81, ""},
		"3*25 m - Cat 6A drum": {3, 25, "Cat 6A drum"},
		"12 x 50 m, Cat 6A":    {12, 50, "Cat 6A"},
		"4 x 50 Cat 6A":        {4, 50, "Cat 6A"},
	} {
		t.Run(text, func(t *testing.T) {
			got, err := exchange.ReadAmount(text, quantity.Metric)
			require.NoError(t, err)
			require.InDelta(t, want.Length, got.Length, 1e-9)
			got.Length = want.Length
			require.Equal(t, want, got)
		})
	}
	for text, says := range map[string]string{
		"": "nothing is written", "0 x 50 m": "1 to 10000 cables", "99999 x 2 m": "1 to 10000 cables", "12 x": "", "drum": "a number is missing",
		"0 m": "between 0.1 m and 10000 m", "20 km": "between 0.1 m and 10000 m", "5o m": "", "1,500 m": "1500 for thousands",
	} {
		t.Run("refuses "+text, func(t *testing.T) {
			a, err := exchange.ReadAmount(text, quantity.Metric)
			if text == "5o m" {
				require.Equal(t, "o m", a.Rest, "what stands behind a figure is no unit, so it must be a kind")
				return
			}
			require.ErrorContains(t, err, says)
		})
	}
}

func TestTagsByPattern(t *testing.T) {
	for _, c := range []struct {
		text     string
		quantity int
		want     string
	}{
		{"R07", 0, "R07"},
		{"A01-A03", 0, "A01 A02 A03"},
		{"A01-03", 3, "A01 A02 A03"},
		{"A 8 – A 11", 0, "A 8|A 9|A 10|A 11"},
		{"A1..A3", 0, "A1 A2 A3"},
		{"A1 to A3", 0, "A1 A2 A3"},
		{"LL-01", 0, "LL-01"},
		{"LL-01 - LL-03", 0, "LL-01 LL-02 LL-03"},
		{"A01-A02, B7; C1", 0, "A01 A02 B7 C1"},
		{"3-05", 0, "3-05"},
		{"7-2", 0, "7-2"},
		{"12-13", 1, "12-13"},
		{"A1-B3", 0, "A1-B3"},
	} {
		t.Run(fmt.Sprintf("%s of %d", c.text, c.quantity), func(t *testing.T) {
			tags, err := exchange.ReadTags(c.text, c.quantity)
			require.NoError(t, err)
			want := strings.Fields(c.want)
			if strings.Contains(c.want, "|") {
				want = strings.Split(c.want, "|")
			}
			require.Equal(t, want, tags)
		})
	}
	for text, says := range map[string]string{
		"A1-B3": "does not run from one tag to another", "A1, A1": "stands there twice", "A1-A3, A2": "stands there twice", "A000001-A999999": "more than 10000 tags",
	} {
		_, err := exchange.ReadTags(text, 5)
		require.ErrorContains(t, err, says)
	}
}

func TestEveryFaultNamesItsRowAndColumn(t *testing.T) {
	s := stock(t, "Kind,Length,Quantity,Tag,Return date,Condition,Loss\n"+
		"Cat 6A,50,2,A01-A03,,,\n"+
		"Cat 8,50,,,,,\n"+
		"Cat 6A,5 rods,,,,,\n"+
		"Cat 6A,20,some,,,,\n"+
		"Cat 6A,20,,B1,04/05/2031,,\n"+
		"Cat 6A,20,,B1,31.02.2031,,\n"+
		"Cat 6A,20,,b2,,so-so,loud\n"+
		",20,,,,,\n"+
		"Cat 6A,,,,,,\n"+
		"Cat 6A,20,,C1,,,\n"+
		"Cat 6A,20,,c1,,,\n"+
		"Cat 6A,20,,Z9,,,\n", exchange.Options{Kinds: kinds, Taken: func(tag string) bool { return tag == "Z9" }})
	require.Equal(t, []string{
		`row 2, column D "Tag": "A01-A03" names 3, but the quantity is 2`,
		`row 3, column A "Kind": "Cat 8" is no kind of cable here: say what it means`,
		`row 4, column B "Length": "rods" behind the length is not understood; write for instance 50 m or 12 x 50 m`,
		`row 5, column C "Quantity": "some" is no whole number from 1 to 10000`,
		`row 6, column E "Return date": "04/05/2031" may be two days, by which of them comes first: write the day as year-month-day, for instance 2027-06-22`,
		`row 7, column E "Return date": "31.02.2031" is no day: write the day as year-month-day, for instance 2027-06-22`,
		`row 7, column D "Tag": tag B1 stands in row 6 already`,
		`row 8, column F "Condition": "so-so" is no condition that is known here: say what it means`,
		`row 8, column G "Loss": decibels "loud": a number is missing before "loud"; write for instance 1.5 dB`,
		`row 9, column A "Kind": no kind of cable is written`,
		`row 10, column B "Length": no length is written`,
		`row 12, column D "Tag": tag c1 stands in row 11 already`,
		`row 13, column D "Tag": tag Z9 is in the stock already`,
	}, faults(s.Faults))
	require.Equal(t, []string{"kind: Cat 8 ×1", "condition: so-so ×1"}, askedOf(s))
}

func TestWordsForAKindAreNamedByTheUser(t *testing.T) {
	text := "Kind,Length\nBlack drum,50\nCat 6,20\nBlack drum,30\n"
	require.Equal(t, []string{"kind: Black drum ×2"}, askedOf(stock(t, text, options)))
	means := map[exchange.Said]string{exchange.SaidOf(exchange.OfKind, "BLACK  drum"): "cat6a"}
	s := stock(t, text, exchange.Options{Kinds: kinds, Means: means})
	require.Empty(t, s.Faults)
	require.Equal(t, plan.CableKindID("cat6a"), s.Rows[2].Reels[0].Kind)
}

func use(e *plan.Edit, id plan.CableKindID) error {
	for _, kind := range kinds {
		if kind.ID == id {
			plan.Put(e, kind)
		}
	}
	return nil
}

func added(t testing.TB, p *plan.Plan, s exchange.Stock) (*plan.Plan, error) {
	t.Helper()
	return plan.Do(p, plan.NewIDSource(1, 2), func(e *plan.Edit) error { return s.Add(e, use) })
}

func TestAListEntersThePlanWholeOrByTheUsersChoiceWithoutItsFaults(t *testing.T) {
	s := stock(t, "Kind,Length,Quantity,Case\nCat 6A,50,12,Case 1\nCat 6A,x,,Case 2\nCat 6,20,2,CASE 1\n", options)
	empty := plan.New("x")
	_, err := added(t, empty, s)
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "1 rows have faults, of which the first is row 3")
	p, err := added(t, empty, s.GoodOnly())
	require.NoError(t, err)
	require.Equal(t, 2, p.Reels.Len())
	require.Equal(t, 1, p.Cases.Len(), "one case, whatever its capitals, and none of a row left out")
	require.Equal(t, 2, p.CableKinds.Len())
}

func TestALongListIsRead(t *testing.T) {
	var text strings.Builder
	text.WriteString("Kind,Length,Tag\n")
	for i := range 10_000 {
		fmt.Fprintf(&text, "Cat 6A,%d m,T%05d\n", 5+i%95, i)
	}
	s := stock(t, text.String(), options)
	require.Empty(t, s.Faults)
	require.Len(t, s.Rows, 10_000)
	s = stock(t, "Kind,Length,Tag\nCat 6A,5,A0001-A9999\nCat 6A,5,B0001-B9999\nCat 6A,5,C0001-C9999\n", options)
	require.Len(t, s.Rows, 2)
	require.Contains(t, s.Faults[0].String(), "row 4: with this row there are more than 20000 reels")
}

func TestWithoutALengthOrAKindNothingIsRead(t *testing.T) {
	require.Contains(t, stock(t, "Colour,Weight\nred,heavy\n", options).Faults[0].String(), "no column is the length")
	require.Contains(t, stock(t, "Length,Colour\n50,red\n", options).Faults[0].String(), "no column is the kind of cable")
}

func TestUnknownHeadsAreHeadsAllTheSame(t *testing.T) {
	grid := read(t, "Stuff,Size,Whose\nCat 6,25 m,Ada\nCat 6,10 m,Ada\n").Grids[0]
	require.Equal(t, exchange.Layout{Head: 1, Fields: []string{"", exchange.Length, ""}}, exchange.Guess(grid, exchange.StockFields()))
	grid = read(t, "Cat 6,25 m,Ada\nCat 6,10 m,Ada\n").Grids[0]
	require.Equal(t, 0, exchange.Guess(grid, exchange.StockFields()).Head)
}

func TestCasesAreReadEachOnce(t *testing.T) {
	grid := read(t, "Case,Contents\nCase 1,long drums\nCase 2,\n,nothing\ncase 1,again\nOld,\n").Grids[0]
	c := exchange.ReadCases(grid, exchange.Guess(grid, exchange.CaseFields()), func(name string) bool { return name == "Old" })
	require.Equal(t, []exchange.CaseRow{{2, plan.Case{Name: "Case 1", Note: "long drums"}}, {3, plan.Case{Name: "Case 2"}}}, c.Rows)
	require.Equal(t, []string{
		`row 4, column A "Case": the case has no name`,
		`row 5, column A "Case": case "case 1" stands in row 2 already`,
		`row 6, column A "Case": case "Old" is there already`,
	}, faults(c.Faults))
}

package house_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// hall is a house with cables in all states and a show that has some of them: R101 to R110 of 50 m, 12 of 10 m and 6 of 30 m without
// tags, a trunk piece, a case.
type hall struct {
	stock house.Stock
	show  *plan.Plan
	link  plan.LinkID
}

func newHall(t *testing.T) hall {
	t.Helper()
	ids := plan.NewIDSource(7, 8)
	p, err := plan.Do(plan.New("House stock"), ids, func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		plan.Put(e, plan.CableKind{ID: "multi-8", Name: "Multicore 8", Media: "balanced-pair", Category: "cat6a"})
		box := e.AddCase(plan.Case{Name: "Case 4"})
		e.AddCase(plan.Case{Name: "Case 5"})
		for n := 101; n <= 110; n++ {
			row := plan.Reel{Tag: fmt.Sprintf("R%d", n), Kind: "cat6a", Length: 50}
			switch n {
			case 101, 102:
				row.Case = box
			case 108:
				row.Condition, row.Reason = plan.Faulty, "bent pin"
			case 109:
				row.State, row.StateOn = plan.Missing, "2027-06-03"
			}
			e.AddReel(row)
		}
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 10, Quantity: 12})
		e.AddReel(plan.Reel{Kind: "multi-8", Length: 10, Quantity: 2})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 30, Quantity: 6})
		e.AddReel(plan.Reel{Tag: "T1", Kind: "cat6a", Length: 40, TiedInto: "Trunk A"})
		e.AddReel(plan.Reel{Tag: "T2", Kind: "multi-8", Length: 40, TiedInto: "Trunk A"})
		return nil
	})
	require.NoError(t, err)
	h := hall{stock: house.Stock{Plan: p}}
	h.settled(t, "other", "Other show", "2027-06-08", map[string]int{"R107": 1, "30 m": 2})
	h.settled(t, "third", "Third", "", map[string]int{"30 m": 1})
	h.show = h.settled(t, "this", "This show", "", map[string]int{"R106": 1, "10 m Cat 6A": 4})
	h.show, err = plan.Do(h.show, ids, func(e *plan.Edit) error {
		require.NoError(t, catalogue.Use(e, "aes50-router-5"))
		from, to := e.AddDevice(plan.Device{Name: "A", Kind: "aes50-router-5"}), e.AddDevice(plan.Device{Name: "B", Kind: "aes50-router-5"})
		h.link = e.AddLink(plan.Link{Name: "L1", Transport: "aes50", From: from, To: to, FromPort: "AES50 1", ToPort: "AES50 1", Way: "straight"})
		e.SetSegments(h.link, []plan.Segment{{Reel: called(e.Now(), "R106").ID}, {Kind: "cat6a", Length: 10}})
		e.AddReel(plan.Reel{Tag: "OWN", Kind: "cat6a", Length: 5})
		e.AddReel(plan.Reel{Tag: "HIRED", Kind: "cat6a", Length: 5, Owner: "Northquay Hire"})
		return nil
	})
	require.NoError(t, err)
	return h
}

// called is a row by its tag, or by its length and kind.
func called(p *plan.Plan, name string) (found plan.Reel) {
	for reel := range p.Reels.All() {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		if reel.Tag == name || reel.Tag == "" && strings.HasPrefix(fmt.Sprintf("%g m %s", reel.Length, kind.Name), name) {
			found = reel
		}
	}
	return found
}

func (h *hall) settled(t *testing.T, identity, name, until string, has map[string]int) *plan.Plan {
	t.Helper()
	ids := plan.NewIDSource(uint64(len(identity)), uint64(len(name)))
	p, err := plan.Do(plan.New(name), ids, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity, settings.BackOn = identity, until
		e.SetSettings(settings)
		for _, each := range slices.Sorted(func(yield func(string) bool) {
			for each := range has {
				if !yield(each) {
					return
				}
			}
		}) {
			if err := h.stock.Take(e, house.Want{Reel: called(h.stock.Plan, each).ID, Quantity: has[each]}); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	_, err = h.stock.Settle(p, house.ShowOf(p, "", "2027-06-01"), ids)
	require.NoError(t, err)
	return p
}

// said is what a text means, as one line.
func (h *hall) said(side house.Side, text string) string {
	meant := h.stock.Meant(side, h.show, house.Typed{Text: text, Day: "2027-06-05"})
	var parts []string
	for _, want := range meant.Wants {
		reel, _ := h.stock.Plan.Reels.Get(plan.Key(want.Reel))
		parts = append(parts, fmt.Sprintf("%d %s", want.Quantity, house.NamedIn(h.stock.Plan, reel, words.Units{})))
	}
	for _, back := range meant.Returns {
		reel, _ := h.show.Reels.Get(plan.Key(back.Reel))
		parts = append(parts, fmt.Sprintf("%d %s", back.Quantity, house.NamedIn(h.show, reel, words.Units{})))
	}
	for _, came := range meant.Came {
		at := slices.IndexFunc(h.stock.Takings, func(t house.Taking) bool { return t.ID == came.Taking && t.Plan == came.Plan })
		reel, _ := h.stock.Plan.Reels.Get(plan.Key(h.stock.Takings[at].Reel))
		parts = append(parts, fmt.Sprintf("%d %s from %s", came.Quantity, house.NamedIn(h.stock.Plan, reel, words.Units{}), came.Plan))
	}
	for _, found := range meant.Found {
		reel, _ := h.stock.Plan.Reels.Get(plan.Key(found))
		parts = append(parts, "found "+reel.Tag)
	}
	said := strings.Join(parts, ", ")
	if len(meant.Not) > 0 {
		said += " | " + strings.Join(meant.Not, " ")
	}
	if len(meant.Instead) > 0 {
		said += " | " + strings.Join(meant.Instead, "; ")
	}
	return said
}

func TestWhatATextMeansForAShowThatTakes(t *testing.T) {
	h := newHall(t)
	texts := map[string]string{
		"R101":          "1 R101",
		" r101 ":        "1 R101",
		"R101, r103":    "1 R101, 1 R103",
		"R101 R103":     "1 R101, 1 R103",
		"R101;R101":     "1 R101",
		"R101–R103":     "1 R101, 1 R102, 1 R103",
		"R103-101":      "1 R101, 1 R102, 1 R103",
		"r101..r102":    "1 R101, 1 R102",
		"R104 to R107":  "1 R104, 1 R105 | R106 is in this show already. R107 is with Other show since 1 June, due 8 June.",
		"R110-R115":     "1 R110 | 5 numbers of R110-R115 are not here.",
		"X1-X5":         " | No tag of the house's here lies in X1-X5.",
		"R107":          " | R107 is with Other show since 1 June, due 8 June.",
		"R108":          " | R108 is faulty: bent pin.",
		"R109":          " | R109 is missing since 3 June.",
		"R106":          " | R106 is in this show already.",
		"OWN":           " | OWN is this plan's own, not the house's.",
		"HIRED":         " | HIRED is hired for this show, not the house's.",
		"case 4":        "1 R101, 1 R102",
		"Case 5":        " | Nothing of the house's is in Case 5.",
		"Trunk a":       "1 T1, 1 T2",
		"T2":            "1 T1, 1 T2",
		"3 x 10 m":      " | 10 m is of Cat 6A and Multicore 8: say which. | 3 x 10 m Cat 6A; 3 x 10 m Multicore 8",
		"3 × 10 m cat":  "3 10 m Cat 6A",
		"3x10m multi":   " | Of 10 m multi there are 2 in the house, not 3. | 2 x 10 m multi",
		"2 x 10 multi":  "2 10 m Multicore 8",
		"30 m":          "1 30 m Cat 6A",
		"4 x 30 m":      " | Of 30 m there are 3 in the house, not 4. | 3 x 30 m",
		"0 x 10 m cat":  " | Say how many, 1 or more.",
		"2 x 17 m":      " | The house has no 17 m. | 2 x 10 m Cat 6A; 2 x 10 m Multicore 8; 2 x 30 m Cat 6A",
		"7 x 50 m":      " | Of 50 m there are 6 in the house, not 7. | 6 x 50 m",
		"2 x 50 m":      "1 R101, 1 R102",
		"all laid":      "1 10 m Cat 6A",
		"all":           " | All of the stock is never taken at once: type all laid for what the links lay, a case, a range or tags.",
		"R1":            " | Nothing of the house's here is called R1. | R101; R102; R103; R104; R105; R106",
		"unk":           " | Nothing of the house's here is called unk. | Trunk A",
		"3 x":           " | Nothing of the house's here is called 3 x.",
		"R101, nothing": "1 R101 | Nothing of the house's here is called nothing.",
		"":              " | Type or scan a tag. A case, a range such as R101–R120, 3 x 10 m and all laid are understood too.",
	}
	for text, said := range texts {
		require.Equal(t, said, h.said(house.ToTake, text), text)
	}
	require.Contains(t, h.said(house.ToTake, string(h.link)+" A"), "is in this show already")
}

func TestWhatATextMeansForAShowThatGivesBack(t *testing.T) {
	h := newHall(t)
	for text, said := range map[string]string{
		"r106":                "1 R106",
		"R107":                " | R107 is not with this show: with Other show since 1 June, due 8 June.",
		"R101":                " | R101 is not with this show: in the house.",
		"OWN":                 " | OWN is this plan's own, not the house's.",
		"3 x 10 m":            "3 10 m Cat 6A",
		"5 x 10 m":            " | Of 10 m there are 4 with this show, not 5. | 4 x 10 m",
		"2 x 30 m":            " | This show has no 30 m of the house's. | 2 x 10 m Cat 6A; 2 x 50 m Cat 6A",
		"all laid":            "1 R106",
		"all":                 "4 10 m Cat 6A, 1 R106",
		"all that is out":     "4 10 m Cat 6A, 1 R106",
		"all of this show":    "4 10 m Cat 6A, 1 R106",
		"all of Third":        " | Third is another show: Receive takes back what it has.",
		"R106 R101":           "1 R106 | R101 is not with this show: in the house.",
		string(h.link) + " a": "1 R106",
		string(h.link) + " B": " | The cable at that label of L1 is not the house's.",
	} {
		require.Equal(t, said, h.said(house.ToGiveBack, text), text)
	}
}

func TestWhatATextMeansForTheHouseThatReceives(t *testing.T) {
	h := newHall(t)
	for text, said := range map[string]string{
		"R107":                "1 R107 from other",
		"R106":                "1 R106 from this",
		"R109":                "found R109",
		"R101":                " | R101 is in the house: there is nothing to receive.",
		"R101-R110":           "1 R106 from this, 1 R107 from other, found R109 | R101 is in the house: there is nothing to receive. R102 is in the house: there is nothing to receive. R103 is in the house: there is nothing to receive. R104 is in the house: there is nothing to receive. R105 is in the house: there is nothing to receive. R108 is in the house: there is nothing to receive. R110 is in the house: there is nothing to receive.",
		"all":                 "4 10 m Cat 6A from this, 1 R106 from this",
		"all of other show":   "2 30 m Cat 6A from other, 1 R107 from other",
		"all of nobody":       " | Nothing of the house's here is called all of nobody.",
		"2 x 30 m":            " | Of 30 m there are 2 with Other show and 1 with Third: say of which show. | 2 x 30 m of Other show; 1 x 30 m of Third",
		"2 x 30 m of third":   " | Of 30 m there is 1 out, not 2. | 1 x 30 m",
		"1 x 30 m of Third":   "1 30 m Cat 6A from third",
		"3 x 30 m":            "2 30 m Cat 6A from other, 1 30 m Cat 6A from third",
		"all laid":            "1 R106 from this",
		"Case 4":              " | Nothing of Case 4 is out.",
		string(h.link) + " A": "1 R106 from this",
	} {
		require.Equal(t, said, h.said(house.ToReceive, text), text)
	}
	h.settled(t, "twin", "Third", "", map[string]int{"10 m Cat 6A": 1})
	require.Equal(t, " | 2 shows are called Third: mark what came in the list, which says their days.", h.said(house.ToReceive, "all of Third"))
}

// Whatever is typed, nothing panics, nothing is meant twice, and what means nothing says why.
func TestAnyTextMeansSomethingOrSaysWhyNot(t *testing.T) {
	h := newHall(t)
	random := rand.New(rand.NewPCG(3, 4))
	parts := []string{"R101", "r106", "R", "1", "120", "-", "–", "..", " ", "x", "×", "10 m", "10", "m", "'", `"`, "Cat 6A", ",", ";", "Case 4", " of ", "Third", "all", "all laid", "J1A", " A", "Trunk A", "99999999999999999999", "é", "\xff", "\x00", string(h.link)}
	for range 3000 {
		var text strings.Builder
		for range 1 + random.IntN(6) {
			text.WriteString(parts[random.IntN(len(parts))])
		}
		for _, side := range []house.Side{house.ToTake, house.ToGiveBack, house.ToReceive} {
			meant := h.stock.Meant(side, h.show, house.Typed{Text: text.String(), Day: "2027-06-05"})
			require.False(t, meant.Nothing() && len(meant.Not) == 0, "%q", text.String())
			seen := map[plan.ReelID]bool{}
			for _, want := range meant.Wants {
				require.False(t, seen[want.Reel], "%q", text.String())
				seen[want.Reel] = true
				reel, _ := h.stock.Plan.Reels.Get(plan.Key(want.Reel))
				require.LessOrEqual(t, want.Quantity, h.stock.Free(h.show, reel))
			}
		}
	}
	require.Contains(t, h.said(house.ToTake, strings.Repeat("R101 ", 1000)), "too much at once")
}

package main_test

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	loomsheet "stageloom/cmd/loomsheet"
	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/supply"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// Window and command say the same of one plan and one house: what is taken, what stays unserved and why, what to have besides
// and whom that serves, what is held back, and how many links and cables change.
func TestThePickSaysWhatTheWindowSays(t *testing.T) {
	folder, path := t.TempDir(), filepath.Join(t.TempDir(), "show.stageloom")
	p, err := plan.Do(demo.Weekender(), nil, func(e *plan.Edit) error {
		n := 0
		for reel := range e.Now().Reels.All() {
			if n++; n%3 > 0 {
				reel.Condition, reel.Reason = plan.Faulty, "bent pin"
				plan.Put(e, reel)
			}
		}
		return nil
	})
	require.NoError(t, err)
	_, err = planfile.Replace(path, p, nil)
	require.NoError(t, err)
	require.NoError(t, house.Open(folder).ChangeStock(func(e *plan.Edit) error {
		for kind := range p.CableKinds.All() {
			plan.Put(e, kind)
			for _, length := range []float64{15, 30, 70} {
				e.AddReel(plan.Reel{Kind: kind.ID, Length: length, Quantity: 2})
			}
		}
		return nil
	}))
	stock, err := house.Open(folder).Stock()
	require.NoError(t, err)
	sections := 0
	for _, from := range supply.Sources() {
		picked, err := supply.Pick(context.Background(), p, stock, from, cabling.Request{HoldBack: true}, nil)
		require.NoError(t, err)
		said := text.PicksFrom(picked, words.Units{})
		var out, trouble bytes.Buffer
		loomsheet.Run([]string{"pick", path, "--house", folder, "--from", string(from), "--hold-back"}, &out, &trouble)
		require.Empty(t, trouble.String())
		printed := strings.Join(strings.Fields(out.String()), " ")
		says := func(head string, rows []string) {
			for i, row := range rows {
				rows[i] = "- " + row
			}
			if len(rows) > 0 {
				sections++
				require.Contains(t, printed, strings.Join(strings.Fields(head+": "+strings.Join(rows, " ")), " "), "from %s", from)
			}
		}
		says("To be taken from the house", said.FromHouse)
		says("unserved", said.Unserved)
		for _, advice := range said.Advice {
			says(advice.Head, advice.Rows)
		}
		says("Held back in the truck", said.Held)
	}
	require.Greater(t, sections, 6)
}

package house_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

func TestAStockOfTheFirstVersionIsRead(t *testing.T) {
	folder := t.TempDir()
	l, _, twelve := stocked(t, folder)
	path := filepath.Join(folder, "stock.stageloom-stock")
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	old := strings.Replace(string(now), "stageloom stock 2", "stageloom stock 1", 1) +
		`{"id":"t-22222","reel":"` + string(twelve) + `","quantity":3,"show":"Meadow","day":"2031-06-01"}` + "\n"
	require.NoError(t, os.WriteFile(path, []byte(old), 0o600))
	require.Equal(t, 9, stockOf(t, l).Left(row(t, stockOf(t, l).Plan, twelve)))
	nameless := show(t, plan.New("Other"), func(e *plan.Edit) error {
		s := stockOf(t, l)
		return s.Take(e, house.Want{Reel: twelve, Quantity: 9})
	})
	require.Empty(t, stockOf(t, l).Told(nameless), "what a plan that was never saved took")
	_, err = l.Save(nameless, house.ShowOf(nameless, "", today))
	require.ErrorContains(t, err, "has no identity yet")
	require.Equal(t, 9, stockOf(t, l).Left(row(t, stockOf(t, l).Plan, twelve)), "it gives back nothing of another")
	p := show(t, plan.New("Meadow"), func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 3, Taking: "t-22222"})
		return nil
	})
	require.Equal(t, house.Settled{}, saved(t, l, p, meadow), "it has what it had")
	require.Len(t, stockOf(t, l).With("meadow"), 1)
	require.Equal(t, 3, saved(t, l, plan.New("Meadow"), meadow).Returned)
}

func TestADamagedStockIsNamedAndNotWrittenOver(t *testing.T) {
	folder := t.TempDir()
	l, _, twelve := stocked(t, folder)
	took(t, l, plan.New("Meadow"), meadow, house.Want{Reel: twelve, Quantity: 5})
	path := filepath.Join(folder, "stock.stageloom-stock")
	good, err := os.ReadFile(path)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"nothing":                     "",
		"another file":                "hello",
		"the head alone":              "stageloom stock 2\n",
		"cut off in the rows":         string(good[:60]),
		"cut off in a taking":         string(good[:len(good)-5]),
		"a reel that is not there":    strings.Replace(string(good), `"reel":"`+string(twelve), `"reel":"r-zzzzz`, 1),
		"more out than there are":     strings.Replace(string(good), `"quantity":5`, `"quantity":13`, 1),
		"a name twice in a taking":    strings.Replace(string(good), `"quantity":5`, `"quantity":5,"quantity":5`, 1),
		"an unknown name in a taking": strings.Replace(string(good), `"quantity":5`, `"quantity":5,"colour":1`, 1),
	} {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
			_, err := l.Stock()
			require.ErrorContains(t, err, "stock.stageloom-stock cannot be read")
			require.Error(t, l.ChangeStock(func(*plan.Edit) error { return nil }))
			held, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, text, string(held))
		})
	}
	require.Error(t, house.Library{}.ChangeStock(func(*plan.Edit) error { return nil }))
	s, err := house.Library{}.Stock()
	require.NoError(t, err)
	require.Zero(t, s.Plan.Reels.Len())
}

func TestAHostileStockOfTheSecondVersionIsRefusedInWords(t *testing.T) {
	folder := t.TempDir()
	l, tagged, twelve := stocked(t, folder)
	took(t, l, plan.New(""), from(meadow, "2031-06-10", "2031-06-15"), one(tagged), house.Want{Reel: twelve, Quantity: 5})
	took(t, l, plan.New(""), from(harbour, "2031-06-16", "2031-06-20"), one(tagged))
	path := filepath.Join(folder, "stock.stageloom-stock")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	good := string(text)
	for name, c := range map[string]struct{ was, is, why string }{
		"two shows on one day with one piece": {`"until":"2031-06-15"`, `"until":"2031-06-16"`, "of A01 there would be 1, but 2 are out with shows on 2031-06-16"},
		"days that are none":                  {`"until":"2031-06-15"`, `"until":"2031-06-99"`, "the show Meadow is not written as it should be"},
		"days written otherwise":              {`"until":"2031-06-15"`, `"until":"2031-6-15"`, "the show Meadow is not written"},
		"days the wrong way round":            {`"until":"2031-06-15"`, `"until":"2031-06-01"`, "the show Meadow is not written"},
		"a show twice":                        {`"id":"harbour"`, `"id":"meadow"`, "the show Harbour is not written"},
		"a show without an identity":          {`"show":{"id":"meadow"`, `"show":{"id":""`, "is not written as it should be"},
		"less than none":                      {`"quantity":5`, `"quantity":-5`, "what Meadow has taken is not written as it should be"},
		"less than none came":                 {`"day":"2031-06-18",`, `"day":"2031-06-18","came_back":-1,`, "what Meadow has taken is not written"},
		"it came as nobody knows":             {`"day":"2031-06-18",`, `"day":"2031-06-18","came_as":"eaten",`, "what Meadow has taken is not written"},
		"days of a taking that are none":      {`"day":"2031-06-18",`, `"day":"2031-06-18","from":"soon",`, "what Meadow has taken is not written"},
		"a line of nothing":                   {`"taking":{`, `"takings":{`, "is not as it was written"},
		"a missing reel that a show has":      {`"length_m": 100`, `"length_m": 100, "state": "missing"`, "A01 would be missing, but Meadow has it"},
	} {
		t.Run(name, func(t *testing.T) {
			hostile := strings.Replace(good, c.was, c.is, 1)
			require.NotEqual(t, good, hostile)
			require.NoError(t, os.WriteFile(path, []byte(hostile), 0o600))
			_, err := l.Stock()
			require.ErrorContains(t, err, c.why)
			require.NotRegexp(t, `\b[a-z]-[2-9a-z]{5}\b`, err.Error(), "no identity is said")
		})
	}
	require.NoError(t, os.WriteFile(path, text, 0o600))
	stockOf(t, l)
}

func TestWhatADamagedTakingQuotesIsClipped(t *testing.T) {
	folder := t.TempDir()
	l, _, twelve := stocked(t, folder)
	took(t, l, plan.New("Meadow"), meadow, house.Want{Reel: twelve, Quantity: 5})
	path := filepath.Join(folder, "stock.stageloom-stock")
	good, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(good), `"quantity":5`, `"quantity":`+strings.Repeat("9", 5000), 1)), 0o600))
	_, err = l.Stock()
	require.ErrorContains(t, err, "line 4 is no taking")
	require.ErrorContains(t, err, "put the file back from a copy")
	require.Less(t, len(err.Error()), 400+len(path))
}

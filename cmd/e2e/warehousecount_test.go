package e2e_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// The files of the house and of its shows read as raw text: this counts cables without a line of the program's own code.
type (
	rawReel struct {
		ID       string  `json:"id"`
		Tag      string  `json:"tag"`
		Length   float64 `json:"length_m"`
		Quantity int     `json:"quantity"`
		State    string  `json:"state"`
		Fault    string  `json:"condition"`
		Owner    string  `json:"owner"`
		Taking   string  `json:"house_taking"`
		House    string  `json:"house_reel"`
		Lacks    int     `json:"house_lacks"`
	}
	rawTaking struct {
		ID, Plan, Reel string
		Quantity       int
		Came           int `json:"came_back"`
	}
	rawShow struct{ ID, Name, File, From, Until string }
)

func (r rawReel) count() int { return max(1, r.Quantity) }

// warehouse is what lies in the files at one moment.
type warehouse struct {
	reels   map[string]rawReel
	takings []rawTaking
	shows   map[string]rawShow
}

func readWarehouse(t *testing.T, path string) warehouse {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	lines := bytes.Split(bytes.TrimSpace(text), []byte("\n"))
	require.Equal(t, "stageloom stock 2", string(lines[0]))
	var rows struct {
		Reels struct{ Set []rawReel }
	}
	require.NoError(t, json.Unmarshal(lines[1], &rows))
	w := warehouse{map[string]rawReel{}, nil, map[string]rawShow{}}
	for _, reel := range rows.Reels.Set {
		w.reels[reel.ID] = reel
	}
	for _, line := range lines[2:] {
		var said struct {
			Taking *rawTaking
			Show   *rawShow
		}
		require.NoError(t, json.Unmarshal(line, &said))
		if said.Taking != nil {
			w.takings = append(w.takings, *said.Taking)
		}
		if said.Show != nil {
			w.shows[said.Show.ID] = *said.Show
		}
	}
	return w
}

// pieces counts all cables of the house, and those that a reel's row says something of.
func (w warehouse) pieces(which func(rawReel) bool) (count int) {
	for _, reel := range w.reels {
		if which == nil || which(reel) {
			count += reel.count()
		}
	}
	return count
}

// agrees checks that on every day each cable is in one place, and that the house and the plans of its shows, each at its path,
// say the same; it returns how many cables each show has, by its name.
func (w warehouse) agrees(t *testing.T, plans ...string) map[string]int {
	t.Helper()
	for id, reel := range w.reels {
		var days []string
		for _, show := range w.shows {
			days = append(days, show.From, show.Until)
		}
		for _, day := range append(days, "2000-01-01", "2099-12-31") {
			out := 0
			for _, taking := range w.takings {
				if show := w.shows[taking.Plan]; taking.Reel == id && show.From <= day && (show.Until == "" || day <= show.Until) {
					out += taking.Quantity
				}
			}
			require.LessOrEqual(t, out, reel.count(), "%s on %q", reel.Tag, day)
		}
		require.False(t, reel.State != "" && w.out(id) > 0, "%s is %s and with a show", reel.Tag, reel.State)
	}
	has := map[string]int{}
	for _, path := range plans {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		var p struct {
			Plan  struct{ Name, Identity string }
			Reels []rawReel
		}
		require.NoError(t, json.Unmarshal(text, &p))
		says := map[string]int{}
		for _, reel := range p.Reels {
			if reel.Taking != "" {
				says[reel.Taking+" "+reel.House] += reel.count() - reel.Lacks
			}
		}
		for _, taking := range w.takings {
			if taking.Plan == p.Plan.Identity && taking.Quantity > 0 {
				key := taking.ID + " " + taking.Reel
				require.Equal(t, taking.Quantity, says[key], "%s: %s", p.Plan.Name, key)
				has[p.Plan.Name] += taking.Quantity
				delete(says, key)
			}
		}
		for key, count := range says {
			require.Zero(t, count, "%s says that it has %s", p.Plan.Name, key)
		}
	}
	return has
}

func (w warehouse) out(reel string) (count int) {
	for _, taking := range w.takings {
		if taking.Reel == reel {
			count += taking.Quantity
		}
	}
	return count
}

// tagged finds the reel of a tag.
func (w warehouse) tagged(t *testing.T, tag string) rawReel {
	t.Helper()
	for _, reel := range w.reels {
		if reel.Tag == tag {
			return reel
		}
	}
	require.Fail(t, fmt.Sprint("the house has no ", tag))
	return rawReel{}
}

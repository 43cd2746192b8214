package picking_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// plan is a plan of the benchmark as its files have it: decimetres, thousandths of a dB, lines and kinds by name.
type reference struct {
	Name  string `json:"name"`
	Joint []int  `json:"join_loss_mdb"`
	Stock []struct {
		ID     string `json:"id"`
		Type   string `json:"type"`
		Length int    `json:"length_dm"`
		Loss   []int  `json:"loss_mdb"`
		Count  int    `json:"qty"`
	} `json:"stock"`
	Pairs []struct {
		Main   int    `json:"main"`
		Backup int    `json:"spare"`
		Rule   string `json:"rule"`
	} `json:"pairs"`
	Links []struct {
		Need     int      `json:"need_dm"`
		Limit    []int    `json:"limit_mdb"`
		Kinds    []string `json:"allowed_types"`
		Wanted   int      `json:"want_margin_mdb"`
		Priority int      `json:"priority"`
		Joins    int      `json:"max_joins"`
	} `json:"links"`
	Previous []map[string]int `json:"previous"`
}

// problem is the plan in the words of the room: one sort of ends, ports that cost nothing.
func (r *reference) problem() *picking.Problem {
	p := &picking.Problem{Joints: [][]picking.Joint{{{Fits: true, Loss: r.Joint}}}}
	kinds, lines := map[string]int{}, map[string]int{}
	for i, s := range r.Stock {
		if _, known := kinds[s.Type]; !known {
			kinds[s.Type] = len(kinds)
		}
		lines[s.ID] = i
		p.Lines = append(p.Lines, picking.Line{Kind: kinds[s.Type], Length: s.Length, Count: s.Count})
	}
	for n, l := range r.Links {
		link := picking.Link{Need: l.Need, Limit: l.Limit, Wanted: l.Wanted, Priority: l.Priority, MaxJoins: l.Joins}
		for i, s := range r.Stock {
			for _, kind := range l.Kinds {
				if kind == s.Type {
					link.Usable = append(link.Usable, picking.Usable{Line: i, Loss: s.Loss, First: []int{}, Last: []int{}})
				}
			}
		}
		if r.Previous != nil {
			for i, s := range r.Stock {
				if count := r.Previous[n][s.ID]; count > 0 {
					link.Before = append(link.Before, picking.Use{Line: i, Count: count})
				}
			}
		}
		p.Links = append(p.Links, link)
	}
	for _, pair := range r.Pairs {
		if pair.Rule == "different_type" {
			p.Apart = append(p.Apart, picking.Pair{Main: pair.Main, Backup: pair.Backup})
		}
	}
	return p
}

// folder is where plans of the benchmark lie, and optima where their best sums do: the project's own unless others are
// named.
func folder() (plans, optima string) {
	plans, optima = filepath.Join("..", "..", "testdata", "picking"), filepath.Join("..", "..", "testdata", "picking-optima.json")
	if named := os.Getenv("STAGELOOM_PICKING"); named != "" {
		plans = named
	}
	if named := os.Getenv("STAGELOOM_PICKING_OPTIMA"); named != "" {
		optima = named
	}
	return plans, optima
}

func read(t testing.TB, path string, into any) {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, into))
}

func references(t testing.TB) (all []*reference) {
	t.Helper()
	plans, _ := folder()
	files, err := filepath.Glob(filepath.Join(plans, "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files, "no plan lies in %s", plans)
	for _, file := range files {
		var r reference
		read(t, file, &r)
		all = append(all, &r)
	}
	return all
}

// The optima were proved by general solvers of mixed-integer programs, as the file says of each.
func TestTheBenchmarkIsSolvedToProof(t *testing.T) {
	_, file := folder()
	var optima map[string]struct {
		Vector   []int `json:"vector"`
		Patterns int   `json:"patterns"`
	}
	read(t, file, &optima)
	for _, r := range references(t) {
		t.Run(r.Name, func(t *testing.T) {
			best, known := optima[r.Name]
			require.True(t, known, "%s has no optimum", r.Name)
			p := r.problem()
			a := picking.Pick(context.Background(), p, nil)
			sums := []int{a.Sums[picking.Unserved], a.Sums[picking.UnderMargin], a.Sums[picking.Joins], a.Sums[picking.Changes], a.Sums[picking.Excess]}
			t.Log(r.Name, sums, a.Bounds, a.Searched, a.Patterns)
			require.Equal(t, best.Vector, sums)
			require.True(t, a.Proved, "bounds %v of sums %v after %d nodes", a.Bounds, a.Sums, a.Searched)
			requireFeasible(t, p, a)
		})
	}
}

package picking_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// program is a problem of one sort of ends as a mixed-integer program that knows nothing of patterns: y(l,j) reels of line
// j on link l, s(l) served, u(l) under the wanted margin, k(l,j) changes. Written as CPLEX LP text, which general solvers
// read.
type program struct {
	p      *picking.Problem
	rows   []string
	bounds []string
	whole  []string
	binary []string
}

func newProgram(p *picking.Problem) *program {
	g := &program{p: p}
	for l := range p.Links {
		g.link(l)
	}
	for j, line := range p.Lines {
		var sum []string
		for l := range p.Links {
			if _, ok := usable(&p.Links[l], j); ok {
				sum = append(sum, y(l, j))
			}
		}
		if len(sum) > 0 {
			g.rows = append(g.rows, fmt.Sprintf("%s <= %d", strings.Join(sum, " + "), line.Count))
		}
	}
	for n, pair := range p.Apart {
		g.apart(n, pair)
	}
	return g
}

func y(l, j int) string { return fmt.Sprintf("y%d_%d", l, j) }

// link states what one link's reels must satisfy.
func (g *program) link(l int) {
	link := &g.p.Links[l]
	var count, length []string
	loss := make([][]string, len(link.Limit))
	for _, u := range link.Usable {
		v := y(l, u.Line)
		g.whole = append(g.whole, v)
		g.bounds = append(g.bounds, fmt.Sprintf("%s <= %d", v, min(picking.MaxReels, g.p.Lines[u.Line].Count)))
		count = append(count, v)
		length = append(length, fmt.Sprintf("%d %s", g.p.Lines[u.Line].Length, v))
		for f := range loss {
			loss[f] = append(loss[f], fmt.Sprintf("%d %s", u.Loss[f]+g.p.Joints[0][0].Loss[f], v))
		}
	}
	s, m := fmt.Sprintf("s%d", l), fmt.Sprintf("u%d", l)
	g.binary = append(g.binary, s, m)
	if len(count) == 0 {
		g.rows = append(g.rows, s+" = 0")
		return
	}
	g.rows = append(g.rows,
		fmt.Sprintf("%s - %d %s <= 0", strings.Join(count, " + "), min(picking.MaxReels, link.MaxJoins+1), s),
		fmt.Sprintf("%s - %d %s >= 0", strings.Join(length, " + "), link.Need, s))
	for f, limit := range link.Limit {
		if limit == 0 {
			continue
		}
		joint := g.p.Joints[0][0].Loss[f]
		sum := strings.Join(loss[f], " + ")
		g.rows = append(g.rows,
			fmt.Sprintf("%s - %d %s <= 0", sum, limit+joint, s),
			fmt.Sprintf("%s - %d %s - %d %s <= 0", sum, max(0, limit-link.Wanted)+joint, s, link.Wanted+limit, m))
		if limit < link.Wanted { // no reels leave the margin
			g.rows = append(g.rows, fmt.Sprintf("%s - %s >= 0", m, s))
		}
	}
	g.changes(l)
}

// changes states k(l,j) = |y(l,j) − before|.
func (g *program) changes(l int) {
	if !hadAnything(g.p) {
		return
	}
	for j := range g.p.Lines {
		v, k := y(l, j), fmt.Sprintf("k%d_%d", l, j)
		if _, ok := usable(&g.p.Links[l], j); !ok {
			continue
		}
		g.rows = append(g.rows, fmt.Sprintf("%s - %s >= %d", k, v, -g.before(l, j)), fmt.Sprintf("%s + %s >= %d", k, v, g.before(l, j)))
	}
}

func (g *program) before(l, j int) (n int) {
	for _, use := range g.p.Links[l].Before {
		if use.Line == j {
			n += use.Count
		}
	}
	return n
}

// apart states that main and backup share no kind.
func (g *program) apart(n int, pair picking.Pair) {
	for j, line := range g.p.Lines {
		for _, l := range []int{pair.Main, pair.Backup} {
			if _, ok := usable(&g.p.Links[l], j); ok {
				g.rows = append(g.rows, fmt.Sprintf("%s - %d a%d_%d_%d <= 0", y(l, j), picking.MaxReels, n, l, line.Kind))
			}
		}
	}
	for kind := range 8 {
		main, backup := fmt.Sprintf("a%d_%d_%d", n, pair.Main, kind), fmt.Sprintf("a%d_%d_%d", n, pair.Backup, kind)
		g.binary = append(g.binary, main, backup)
		g.rows = append(g.rows, fmt.Sprintf("%s + %s <= 1", main, backup))
	}
}

// objective is a sum as LP text, and the constant that belongs to it.
func (g *program) objective(o picking.Objective) (terms []string, constant int) {
	add := func(factor int, name string) {
		if factor != 0 {
			terms = append(terms, fmt.Sprintf("%+d %s", factor, name))
		}
	}
	for l := range g.p.Links {
		link := &g.p.Links[l]
		s := fmt.Sprintf("s%d", l)
		switch o {
		case picking.Unserved:
			add(-link.Priority, s)
			constant += link.Priority
		case picking.UnderMargin:
			add(1, fmt.Sprintf("u%d", l))
		case picking.Joins:
			add(-1, s)
			for _, u := range link.Usable {
				add(1, y(l, u.Line))
			}
		case picking.Excess:
			add(-link.Need, s)
			for _, u := range link.Usable {
				add(g.p.Lines[u.Line].Length, y(l, u.Line))
			}
		case picking.Changes:
			for j := range g.p.Lines {
				if _, ok := usable(link, j); !ok {
					constant += g.before(l, j)
				} else if hadAnything(g.p) {
					add(1, fmt.Sprintf("k%d_%d", l, j))
				}
			}
		}
	}
	return terms, constant
}

// text is the program for one objective, those before held to their sums.
func (g *program) text(o picking.Objective, held map[picking.Objective]int) string {
	var b strings.Builder
	terms, _ := g.objective(o)
	fmt.Fprintf(&b, "Minimize\n obj: %s\nSubject To\n", strings.Join(terms, "\n  "))
	for i, row := range g.rows {
		fmt.Fprintf(&b, " r%d: %s\n", i, row)
	}
	for before, sum := range held {
		if terms, constant := g.objective(before); len(terms) > 0 {
			fmt.Fprintf(&b, " h%d: %s <= %d\n", before, strings.Join(terms, "\n  "), sum-constant)
		}
	}
	fmt.Fprintf(&b, "Bounds\n %s\nGenerals\n %s\nBinaries\n %s\nEnd\n", strings.Join(g.bounds, "\n "), strings.Join(g.whole, "\n "), strings.Join(g.binary, "\n "))
	return b.String()
}

// solve runs a general solver and returns the least sum it proves.
func (g *program) solve(t testing.TB, o picking.Objective, held map[picking.Objective]int) int {
	t.Helper()
	terms, constant := g.objective(o)
	if len(terms) == 0 {
		return constant
	}
	folder := t.TempDir()
	path, answer := filepath.Join(folder, "plan.lp"), filepath.Join(folder, "answer")
	require.NoError(t, os.WriteFile(path, []byte(g.text(o, held)), 0o600))
	out, err := exec.Command("cbc", path, "-ratioGap", "0", "-allowableGap", "0", "-seconds", "120", "-solve", "-solution", answer).CombinedOutput()
	require.NoError(t, err, string(out))
	solution, err := os.ReadFile(answer)
	require.NoError(t, err)
	line, _, _ := bytes.Cut(solution, []byte("\n"))
	require.Contains(t, string(line), "Optimal", "the solver proves it: %s", out)
	text := strings.TrimSpace(string(line[bytes.LastIndexByte(line, ' ')+1:]))
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return int(value+0.5+1e6) - 1e6 + constant
}

// medium is a plan of the size of a small show, with one sort of ends.
func medium(r *rand.Rand) *picking.Problem {
	p := &picking.Problem{Joints: [][]picking.Joint{{{Fits: true, Loss: []int{400, 120}}}}, Order: picking.NewPlan}
	perMetre := [][]int{{253, 78}, {229, 71}, {185, 58}, {180, 57}}
	for range 5 + r.IntN(4) {
		p.Lines = append(p.Lines, picking.Line{Kind: r.IntN(len(perMetre)), Length: 50 * (1 + r.IntN(16)), Count: 1 + r.IntN(4)})
	}
	before := r.IntN(2) == 0
	for range 6 + r.IntN(7) {
		link := picking.Link{
			Need: 50 + r.IntN(1200), Priority: 1 + r.IntN(5), MaxJoins: r.IntN(4), Wanted: 1000 * (1 + r.IntN(3)),
			Limit: []int{19000 + 1000*r.IntN(7), r.IntN(2) * 7200},
		}
		for j, line := range p.Lines {
			if r.IntN(5) > 0 {
				loss := perMetre[line.Kind]
				link.Usable = append(link.Usable, picking.Usable{
					Line: j, Loss: []int{loss[0] * line.Length / 10, loss[1] * line.Length / 10}, First: []int{}, Last: []int{},
				})
			}
			if before && r.IntN(8) == 0 {
				link.Before = append(link.Before, picking.Use{Line: j, Count: 1})
			}
		}
		p.Links = append(p.Links, link)
	}
	if r.IntN(2) == 0 {
		p.Apart = []picking.Pair{{Main: 0, Backup: 1}}
	}
	return p
}

// Every objective of every answer is compared with what a general solver of mixed-integer programs (CBC) proves from a
// formulation of its own. cmd/outside/picking runs it.
func TestMediumPlansAgreeWithAGeneralSolver(t *testing.T) {
	seed, err := strconv.ParseUint(os.Getenv("STAGELOOM_SOLVER_SEED"), 10, 64)
	if err != nil {
		t.Skip("run by cmd/outside/picking")
	}
	const plans = 36
	r := rand.New(rand.NewPCG(seed, 1))
	unserved := 0
	for n := range plans {
		p := medium(r)
		a := picking.Pick(context.Background(), p, nil)
		requireFeasible(t, p, a)
		require.True(t, a.Proved)
		g := newProgram(p)
		held := map[picking.Objective]int{}
		for _, o := range []picking.Objective{picking.Unserved, picking.UnderMargin, picking.Joins, picking.Changes, picking.Excess} {
			require.Equal(t, g.solve(t, o, held), a.Sums[o], "plan %d: %s", n, o)
			held[o] = a.Sums[o]
		}
		unserved += a.Sums[picking.Unserved]
	}
	require.Positive(t, unserved, "stock is scarce in some plans")
	fmt.Printf("picking: %d plans, 5 objectives each, equal to CBC's\n", plans)
}

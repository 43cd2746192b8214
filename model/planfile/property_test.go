package planfile_test

import (
	"bytes"
	"flag"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
	"stageloom/model/planfile"
)

// wantedEdits is how many accepted edits the chains make together; -short makes do with few.
const wantedEdits = 100_000

// stepsPerCheck spreads the wanted edits over rapid's checks, however many the command line asks for. Most checks make
// four chains of them: what an edit costs grows with the plan, and every rule is met long before a thousand edits.
func stepsPerCheck(t *testing.T) int {
	t.Helper()
	checks, err := strconv.Atoi(flag.Lookup("rapid.checks").Value.String())
	require.NoError(t, err)
	if testing.Short() {
		return 20
	}
	return (wantedEdits+checks-1)/checks + 3 // so that four chains make no fewer
}

func TestRandomEditsKeepThePlanValidAndCanAllBeUndone(t *testing.T) {
	steps := stepsPerCheck(t)
	edits, refusals, tables := 0, 0, map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		chains := 4
		if rapid.IntRange(0, 9).Draw(t, "one long chain") == 0 {
			chains = 1
		}
		for range chains {
			c := newChain(t)
			for len(c.back) < steps/chains {
				c.step(t)
			}
			c.undoAll(t)
			edits, refusals = edits+len(c.back), refusals+c.refused
			for table := range c.touched {
				tables[table] = true
			}
		}
	})
	t.Logf("%d edits, %d refusals, %d tables", edits, refusals, len(tables))
	if !testing.Short() {
		require.GreaterOrEqual(t, edits, wantedEdits)
		require.GreaterOrEqual(t, refusals, wantedEdits/50)
		require.Len(t, tables, len(plan.Tables()), "every table is edited")
	}
}

// chain is a plan under random edits, with the Deltas that lead back.
type chain struct {
	start, now *plan.Plan
	ids        *plan.IDSource
	back       []*plan.Delta
	refused    int
	touched    map[string]bool
}

func newChain(t *rapid.T) *chain {
	start := plan.New("Start")
	return &chain{start: start, now: start, ids: plan.NewIDSource(rapid.Uint64().Draw(t, "seed of ids"), 1), touched: map[string]bool{}}
}

func (c *chain) step(t *rapid.T) {
	if rapid.IntRange(0, 19).Draw(t, "wrong") == 0 {
		c.tryWrong(t)
		return
	}
	change := plantest.Edit(t, c.now, c.ids)
	next, err := plan.Do(c.now, c.ids, change.Do)
	if err != nil {
		require.ErrorIs(t, err, plan.ErrRefused, change.Name)
		c.refused++
		return
	}
	require.Empty(t, plan.Check(next), change.Name)
	there, back := plan.Between(c.now, next), plan.Between(next, c.now)
	requireApplied(t, c.now, there, next, change.Name)
	for _, table := range plan.Tables() {
		if set, drop := table.Changed(there); len(set)+len(drop) > 0 {
			c.touched[table.Name] = true
		}
	}
	c.back = append(c.back, back)
	c.now = next
	if len(c.back)%25 == 0 {
		requireWholeMillimetres(t, next)
		requireSavedIsLoaded(t, next)
		requireDeltaIsKept(t, there)
	}
}

// requireWholeMillimetres holds that a position is what its figure in the file says, to the last bit.
func requireWholeMillimetres(t *rapid.T, p *plan.Plan) {
	for _, table := range plan.Tables() {
		for i := range table.RowType.NumField() {
			name, _, _ := strings.Cut(table.RowType.Field(i).Tag.Get("json"), ",")
			if table.RowType.Field(i).Type.Kind() != reflect.Float64 || !strings.HasSuffix(name, "_m") {
				continue
			}
			for row := range table.Rows(p) {
				metres := reflect.ValueOf(row).Field(i).Float()
				require.Equal(t, geom.RoundMM(metres), metres, "%s %s", table.Name, name)
			}
		}
	}
}

func requireApplied(t *rapid.T, from *plan.Plan, d *plan.Delta, want *plan.Plan, name string) {
	got, err := plan.Apply(from, d)
	require.NoError(t, err, name)
	require.True(t, plan.Equal(want, got), name)
}

// tryWrong holds a forbidden edit to its refusal, and the plan to its content.
func (c *chain) tryWrong(t *rapid.T) {
	before, err := plan.Apply(&plan.Plan{}, plan.Between(&plan.Plan{}, c.now))
	require.NoError(t, err)
	change := plantest.Wrong(t, c.now, c.ids)
	next, err := plan.Do(c.now, c.ids, change.Do)
	require.ErrorIs(t, err, plan.ErrRefused, change.Name)
	require.Nil(t, next)
	require.True(t, plan.Equal(before, c.now), "%s has changed the plan that refused it", change.Name)
	c.refused++
}

func (c *chain) undoAll(t *rapid.T) {
	p := c.now
	for i := len(c.back) - 1; i >= 0; i-- {
		before, err := plan.Apply(p, c.back[i])
		require.NoError(t, err)
		p = before
	}
	require.True(t, plan.Equal(c.start, p), "full undo leads to the start")
}

func requireSavedIsLoaded(t *rapid.T, p *plan.Plan) {
	text := written(t, p)
	read, err := planfile.Read(bytes.NewReader(text))
	require.NoError(t, err)
	require.True(t, plan.Equal(p, read), "saved is loaded")
	require.Equal(t, string(text), string(written(t, read)), "what is equal is written equal")
}

func requireDeltaIsKept(t *rapid.T, d *plan.Delta) {
	line, err := planfile.EncodeDelta(d)
	require.NoError(t, err)
	require.NotContains(t, string(line), "\n")
	read, err := planfile.DecodeDelta(line, planfile.Version)
	require.NoError(t, err)
	require.Equal(t, d.Settings, read.Settings)
	again, err := planfile.EncodeDelta(read)
	require.NoError(t, err)
	require.Equal(t, string(line), string(again))
}

func written(t require.TestingT, p *plan.Plan) []byte {
	var b bytes.Buffer
	require.NoError(t, planfile.Write(&b, p))
	return b.Bytes()
}

func TestAChangeOfOneFieldIsAChangeOfOneLine(t *testing.T) {
	changed := 0
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t, 60)
		lines := strings.Split(string(written(t, p)), "\n")
		for range 10 {
			change := plantest.FieldChange(t, p)
			next, err := plan.Do(p, nil, change.Do)
			if err != nil || plan.Equal(p, next) {
				continue
			}
			after := strings.Split(string(written(t, next)), "\n")
			require.Len(t, after, len(lines), change.Name)
			require.Equal(t, 1, differing(lines, after), change.Name)
			changed++
		}
	})
	require.Positive(t, changed)
}

func differing(a, b []string) int {
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

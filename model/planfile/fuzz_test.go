package planfile_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// FuzzRead holds the reader to its word: what it takes is valid and is written back as the same plan; what it
// refuses it names; and what Repair makes can be opened.
func FuzzRead(f *testing.F) {
	for _, text := range plansOfVersion1(f) {
		f.Add([]byte(text))
		f.Add([]byte(text[:len(text)/3]))
		f.Add([]byte(reversedRows(text)))
	}
	for _, table := range tablesOf(everyField(f)) {
		f.Add([]byte(strings.Replace(smallest(f), "}\n}", "},\n"+table+"\n}", 1)))
	}
	f.Add([]byte(`{"stageloom": 2}`))
	f.Add([]byte("{\"stageloom\": 1,\n<<<<<<< HEAD\n"))
	f.Add([]byte(`{"stageloom":1,"plan":{"name":"\ud800"}}`))
	f.Add([]byte(changed(f, `"kind": "console", "x_m"`, `"kind": "gone", "x_m"`)))
	f.Add([]byte(changed(f, `"order": 2, "kind": "cat6a-own"`, `"order": 9, "kind": "cat6a-own"`)))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := planfile.Read(bytes.NewReader(data))
		if err == nil {
			requireKept(t, p)
			return
		}
		var unreadable *planfile.Unreadable
		require.ErrorAs(t, err, &unreadable)
		require.NotEmpty(t, unreadable.Faults)
		require.NotEmpty(t, unreadable.Remedy)
		repaired, mends, err := planfile.Repair(bytes.NewReader(data))
		require.Equal(t, unreadable.Repairable, err == nil)
		if err == nil {
			require.NotEmpty(t, mends)
			requireKept(t, repaired)
		}
	})
}

func requireKept(t *testing.T, p *plan.Plan) {
	t.Helper()
	require.Empty(t, plan.Check(p))
	text := written(t, p)
	again, err := planfile.Read(bytes.NewReader(text))
	require.NoError(t, err)
	require.True(t, plan.Equal(p, again))
	require.Equal(t, string(text), string(written(t, again)))
}

// tablesOf cuts the tables out of a file.
func tablesOf(text string) []string {
	var tables []string
	for _, part := range strings.Split(text, "\n],\n")[1:] {
		tables = append(tables, strings.TrimSuffix(strings.TrimSuffix(part, "}\n"), "\n]\n")+"\n]")
	}
	return tables
}

// spoils are values that a hand, a script or a merge may leave in the place of another.
var spoils = []string{
	"null", "true", "0", "-1", "1.5", "1e999", "-0", "99999999999999999999", `""`, `"x"`, `"\u0000"`, `"A"`, "[]", "{}", `["x"]`,
	`"d-7k2qm"`, `"k-t4r6b"`, `"v-22ggg"`, `"cat6a-own"`, "2", `"in"`, `{"set": []}`, `{"levels": {"drop": ["v-22ggg"]}}`,
}

func TestOneSpoiltValueIsTakenOrRefusedWithItsLine(t *testing.T) {
	if testing.Short() {
		t.Skip("a reader alone shares nothing: for the run without -short")
	}
	text := everyField(t)
	values := regexp.MustCompile(`: ("(?:[^"\\]|\\.)*"|[-0-9.]+|true)`).FindAllStringSubmatchIndex(text, -1)
	require.Greater(t, len(values), 300)
	taken, refused, repairable := 0, 0, 0
	for _, at := range values {
		for _, spoil := range spoils {
			spoilt := text[:at[2]] + spoil + text[at[3]:]
			p, err := planfile.Read(strings.NewReader(spoilt))
			if err == nil {
				requireKept(t, p)
				taken++
				continue
			}
			var unreadable *planfile.Unreadable
			require.ErrorAs(t, err, &unreadable)
			refused++
			if unreadable.Repairable {
				repairable++
				repaired, _, err := planfile.Repair(strings.NewReader(spoilt))
				require.NoError(t, err, "%s at %s", spoil, text[at[0]-20:at[1]])
				requireKept(t, repaired)
			}
		}
	}
	t.Logf("%d taken, %d refused, %d of them repairable", taken, refused, repairable)
	require.Greater(t, taken, 500)
	require.Greater(t, repairable, 500)
	require.Greater(t, refused, 3000)
}

// FuzzDelta holds the codec of Deltas to the same.
func FuzzDelta(f *testing.F) {
	p := read(f, everyField(f))
	for _, d := range []*plan.Delta{plan.Between(&plan.Plan{}, p), plan.Between(p, plan.New("Empty")), {}} {
		line, err := planfile.EncodeDelta(d)
		require.NoError(f, err)
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line []byte) {
		d, err := planfile.DecodeDelta(line, planfile.Version)
		if err != nil {
			var unreadable *planfile.Unreadable
			require.ErrorAs(t, err, &unreadable)
			return
		}
		canonical, err := planfile.EncodeDelta(d)
		require.NoError(t, err)
		again, err := planfile.DecodeDelta(canonical, planfile.Version)
		require.NoError(t, err)
		twice, err := planfile.EncodeDelta(again)
		require.NoError(t, err)
		require.Equal(t, string(canonical), string(twice))
		_, _ = plan.Apply(p, d) // must not panic, whether it fits or not
	})
}

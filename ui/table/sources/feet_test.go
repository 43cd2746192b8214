package sources_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/table/sources"
	"stageloom/ui/text"
)

// stretched draws a plan of twelve links of odd lengths: drawn by the crow, typed, with rises and slack of their own, some too
// short and some without cable.
func stretched(t *testing.T, seed uint64) *plan.Plan {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 0xFEE7))
	metres := func(most float64) float64 { return math.Round(random.Float64()*most*1000) / 1000 }
	p, err := plan.Do(plan.New("Feet"), plan.NewIDSource(seed, 3), func(e *plan.Edit) error {
		require.NoError(t, catalogue.UseCable(e, "cat6a-own"))
		require.NoError(t, catalogue.Use(e, "aes50-router-5"))
		for range 12 {
			from := e.AddDevice(plan.Device{Kind: "aes50-router-5", X: metres(90), Y: metres(90)})
			to := e.AddDevice(plan.Device{Kind: "aes50-router-5", X: metres(90), Y: metres(90)})
			link := e.AddLink(plan.Link{
				Transport: "aes50", From: from, FromPort: "AES50 1", To: to, ToPort: "AES50 1", Way: "straight", FillKind: "cat6a-own",
				RiseFrom: metres(6), RiseTo: metres(2), SlackPercent: plan.Some(math.Round(random.Float64() * 20)),
			})
			if random.IntN(3) == 0 {
				require.NoError(t, e.TypeWay(link, metres(80)+1, plan.Paced))
			}
			var cables []plan.Segment
			for range random.IntN(4) {
				cables = append(cables, plan.Segment{Kind: "cat6a-own", Length: metres(40) + 1})
			}
			e.SetSegments(link, cables)
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

var lengthInFeet = regexp.MustCompile(`([\d,]+(?:\.\d)?) ft`)

// tenthsOf reads the first length of a text in tenths of a foot; a blank one is 0.
func tenthsOf(t *testing.T, text string) int {
	t.Helper()
	found := lengthInFeet.FindStringSubmatch(text)
	if found == nil {
		return 0
	}
	value, err := strconv.ParseFloat(strings.ReplaceAll(found[1], ",", ""), 64)
	require.NoError(t, err)
	return int(math.Round(value * 10))
}

func TestLengthsInFeetAgreeAndAddAsPrinted(t *testing.T) {
	units := words.Units{Length: quantity.Imperial}
	for seed := range uint64(30) {
		a := assess.Of(stretched(t, seed))
		links := sources.Links(a, units)
		cell := func(row int, column string) int {
			for c, each := range links.Columns() {
				if each.Name == column {
					return tenthsOf(t, links.Cell(row, c).Text)
				}
			}
			t.Fatal("no column " + column)
			return 0
		}
		laid, missing := 0, 0
		for row := range links.Len() {
			words := fmt.Sprint("plan ", seed, ", row ", row)
			figures := figuresOf(a, []plan.Ref{links.Ref(row)}, units)
			run, cables := tenthsOf(t, figures["run"].Value), tenthsOf(t, figures["cables"].Value)
			gone := tenthsOf(t, figures["to go"].Value) + tenthsOf(t, figures["too short by"].Value)
			require.Positive(t, run, words)
			require.Equal(t, run, cell(row, "run"), words)
			require.Equal(t, cables, cell(row, "laid"), words)
			require.Equal(t, gone, cell(row, "missing"), words)
			sum := 0
			for _, part := range strings.Split(figures["run"].Note, " + ") {
				sum += tenthsOf(t, part)
			}
			require.Equal(t, run, sum, "%s: %s", words, figures["run"].Note)
			if gone > 0 {
				require.Equal(t, run, cables+gone, words)
			}
			laid, missing = laid+cables, missing+gone
		}
		whole := figuresOf(a, nil, units)
		require.Equal(t, laid, tenthsOf(t, whole["cable"].Value), seed)
		require.Equal(t, missing, tenthsOf(t, whole["still missing"].Value), seed)
	}
}

func figuresOf(a *assess.Assessment, selection []plan.Ref, units words.Units) map[string]text.Figure {
	found := map[string]text.Figure{}
	for _, figure := range text.CardOf(a, selection, units, text.Preview{}).Figures {
		found[figure.Name] = figure
	}
	return found
}

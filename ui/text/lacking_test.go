package text_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// lacking is a plan of one AES50 link over 60 m of ground, with a wanted kind and this much cable.
func lacking(t *testing.T, cable float64) (*assess.Assessment, plan.Ref) {
	t.Helper()
	var link plan.LinkID
	p, err := plan.Do(plan.New("Lacking"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		require.NoError(t, catalogue.UseCable(e, "cat6a-own"))
		require.NoError(t, catalogue.Use(e, "aes50-router-5"))
		from := e.AddDevice(plan.Device{Name: "A", Kind: "aes50-router-5"})
		to := e.AddDevice(plan.Device{Name: "B", Kind: "aes50-router-5", X: 60})
		link = e.AddLink(plan.Link{Transport: "aes50", From: from, FromPort: "AES50 1", To: to, ToPort: "AES50 1", Way: "straight", FillKind: "cat6a-own"})
		if cable > 0 {
			e.SetSegments(link, []plan.Segment{{Kind: "cat6a-own", Length: cable}})
		}
		return nil
	})
	require.NoError(t, err)
	return assess.Of(p), plan.Ref{Table: "links", Key: plan.Key(link)}
}

func TestAGradeThatRestsOnCableNotLaidSaysSo(t *testing.T) {
	cases := []struct {
		name           string
		cable          float64
		overview, card string
	}{
		{"no cable yet", 0, "1 to lay", "ample once 81.9 m of Cat 6A"},
		{"too short", 50, "1 to lay · 1 too short", "ample once 31.9 m more of Cat 6A"},
		{"all laid", 100, "", "ample: "},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			a, link := lacking(t, c.cable)
			var said []string
			for _, item := range text.OverviewOf(a, text.Preview{}) {
				if strings.Contains(item.Words, "to lay") || item.Words == "too short" {
					require.Equal(t, []plan.Ref{link}, item.Rows)
					said = append(said, item.String())
				}
			}
			require.Equal(t, c.overview, strings.Join(said, " · "))
			figures := text.CardOf(a, []plan.Ref{link}, words.Units{}, text.Preview{}).Figures
			require.Contains(t, figures[len(figures)-1].Note, c.card)
		})
	}
}

func TestARunAndWhatIsMissingOfItAgree(t *testing.T) {
	a, link := lacking(t, 0)
	figures := text.CardOf(a, []plan.Ref{link}, words.Units{}, text.Preview{}).Figures
	require.Equal(t, "run", figures[0].Name)
	require.Equal(t, "to go", figures[3].Name)
	require.Equal(t, figures[0].Value, figures[3].Value)
	require.Contains(t, figures[0].Note, "straight × 1.15")
}

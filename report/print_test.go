package report_test

import (
	"bytes"
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
)

// day is the date of every print in these tests.
var day = time.Date(2026, time.June, 12, 9, 30, 0, 0, time.UTC)

func write(t testing.TB, a *assess.Assessment, choice report.Choice) ([]byte, report.Printed) {
	t.Helper()
	var out bytes.Buffer
	done, err := report.Write(context.Background(), &out, a, choice)
	require.NoError(t, err)
	return out.Bytes(), done
}

func TestTheSamePlanAndDateGiveTheSameBytes(t *testing.T) {
	a := assess.Of(field(t))
	first, _ := write(t, a, report.ChoiceOf(a.Plan, day))
	second, _ := write(t, assess.Of(a.Plan), report.ChoiceOf(a.Plan, day))
	require.Equal(t, first, second)
	path := filepath.Join(t.TempDir(), "field.pdf")
	done, err := report.Print(context.Background(), path, a, report.ChoiceOf(a.Plan, day))
	require.NoError(t, err)
	require.Positive(t, done.Pages)
	require.FileExists(t, path)
}

func TestAPrintIsRefusedWithAReason(t *testing.T) {
	a := assess.Of(plan.New("Empty"))
	for _, c := range []struct {
		sentence string
		change   func(*report.Choice)
		said     string
	}{
		{"a sheet that is not known", func(c *report.Choice) { c.Paper = "A5" }, "choose A4, A3 or Letter"},
		{"a chapter that is not known", func(c *report.Choice) { c.Chapters = []report.Chapter{"weather"} }, "choose from"},
		{"no date", func(c *report.Choice) { c.Date = time.Time{} }, "date"},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			choice := report.ChoiceOf(a.Plan, day)
			c.change(&choice)
			var out bytes.Buffer
			_, err := report.Write(context.Background(), &out, a, choice)
			require.ErrorContains(t, err, c.said)
			require.Empty(t, out.Bytes())
		})
	}
	t.Run("a print that is called off", func(t *testing.T) {
		ctx, stop := context.WithCancel(context.Background())
		stop()
		_, err := report.Print(ctx, filepath.Join(t.TempDir(), "off.pdf"), a, report.ChoiceOf(a.Plan, day))
		require.ErrorIs(t, err, context.Canceled)
	})
}

package planfile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
	"stageloom/model/planfile"
)

func edited(t require.TestingT, p *plan.Plan, edit func(*plan.Edit)) *plan.Plan {
	next, err := plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) error { edit(e); return nil })
	require.NoError(t, err)
	return next
}

func TestEveryIssuedRevisionCanBeHadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, ids := withoutRevisions(t, plantest.Plan(t, 40)), plan.NewIDSource(5, 6)
		var issued []*plan.Plan
		for i := range rapid.IntRange(1, 5).Draw(t, "revisions") {
			for range rapid.IntRange(0, 20).Draw(t, "edits") {
				if next, err := plan.Do(p, ids, plantest.Edit(t, p, ids).Do); err == nil {
					p = keepingRevisions(t, p, next)
				}
			}
			sealed, err := planfile.Seal(p, string(rune('A'+i)), "2031-06-14", "to the crew")
			require.NoError(t, err)
			issued, p = append(issued, sealed), sealed
		}
		loaded, err := planfile.Read(strings.NewReader(string(written(t, p))))
		require.NoError(t, err)
		for i, want := range issued {
			got, err := planfile.AtRevision(loaded, i+1)
			require.NoError(t, err)
			require.True(t, plan.Equal(want, got), "revision %d", i+1)
		}
	})
}

func withoutRevisions(t require.TestingT, p *plan.Plan) *plan.Plan {
	bare := *p
	bare.Revisions = nil
	return edited(t, &bare, func(*plan.Edit) {})
}

// keepingRevisions takes random revision rows out of an edit: revisions come of Seal alone.
func keepingRevisions(t require.TestingT, before, after *plan.Plan) *plan.Plan {
	kept := *after
	kept.Revisions = before.Revisions
	return edited(t, &kept, func(*plan.Edit) {})
}

func TestSealingWritesWhatChangedSinceTheRevisionBefore(t *testing.T) {
	p := edited(t, plan.New("Barley Field"), func(e *plan.Edit) {
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Ground"})
		plan.Put(e, plan.Level{ID: "v-33333", Name: "Roof"})
		settings := e.Now().Settings
		settings.Date = "2031-06-14"
		e.SetSettings(settings)
	})
	a, err := planfile.Seal(p, "A", "2031-06-01", "to the crew")
	require.NoError(t, err)
	require.Equal(t, "A", a.Settings.Revision)
	require.Equal(t, "2031-06-14", a.Settings.Date, "the date of the show is not that of the issue")
	require.Equal(t, "2031-06-01", a.Revisions.At(0).Date)

	b, err := planfile.Seal(edited(t, a, func(e *plan.Edit) {
		plan.Put(e, plan.Level{ID: "v-22222", Name: "Lawn"})
		plan.Drop[plan.Level](e, "v-33333")
	}), "B", "2031-06-02", "")
	require.NoError(t, err)

	require.Equal(t, a.Revisions.At(0), b.Revisions.At(0), "what was issued is never rewritten")
	last := b.Revisions.At(1)
	require.Equal(t, 2, last.Number)
	require.Equal(t, "B", last.Letter)
	_, changes, _ := strings.Cut(last.Changes, `}, "levels": `)
	require.Equal(t, `{"set": [{"id": "v-22222", "name": "Lawn"}], "drop": ["v-33333"]}}`, changes)
	require.NotContains(t, last.Changes, "revisions")

	t.Run("a letter is issued once", func(t *testing.T) {
		_, err := planfile.Seal(b, "A", "", "")
		require.ErrorIs(t, err, plan.ErrRefused)
		require.EqualError(t, err, "not changed: revision A was issued already; take another letter")
	})
	t.Run("a blank letter is refused", func(t *testing.T) {
		_, err := planfile.Seal(b, "", "", "")
		require.ErrorIs(t, err, plan.ErrRefused)
	})
	t.Run("a revision that was not issued", func(t *testing.T) {
		for _, n := range []int{-1, 0, 3} {
			_, err := planfile.AtRevision(b, n)
			require.ErrorContains(t, err, "2 were issued")
		}
	})
	t.Run("a chain with a link missing", func(t *testing.T) {
		broken := edited(t, b, func(e *plan.Edit) { plan.Drop[plan.Revision](e, "0001") })
		_, err := planfile.AtRevision(broken, 1)
		require.EqualError(t, err, "revision 1 is missing, so what follows it cannot be told")
		_, err = planfile.Seal(broken, "C", "", "")
		require.EqualError(t, err, "issue revision C: revision 1 is missing, so what follows it cannot be told")
	})
	t.Run("a chain that does not fit", func(t *testing.T) {
		broken := edited(t, b, func(e *plan.Edit) {
			last.Changes = `{"levels": {"drop": ["v-44444"]}}`
			plan.Put(e, last)
		})
		_, err := planfile.AtRevision(broken, 2)
		require.ErrorContains(t, err, `revision B does not fit the one before it: not changed: levels v-44444 there is no row "v-44444" to drop`)
	})
}

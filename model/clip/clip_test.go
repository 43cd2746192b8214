package clip_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/clip"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
)

func all(p *plan.Plan) (refs []plan.Ref) {
	for position := range p.Positions.All() {
		refs = append(refs, plan.RefOf(position))
	}
	for device := range p.Devices.All() {
		refs = append(refs, plan.RefOf(device))
	}
	return refs
}

func paste(t require.TestingT, p *plan.Plan, text string, by geom.Point) (*plan.Plan, []plan.Ref) {
	c, err := clip.Read(text)
	require.NoError(t, err)
	var added []plan.Ref
	next, err := plan.Do(p, plan.NewIDSource(77, 1), func(e *plan.Edit) (err error) {
		added, err = c.Paste(e, by)
		return err
	})
	require.NoError(t, err)
	require.Empty(t, plan.Check(next))
	return next, added
}

func TestAWholePlanPastedIntoAnEmptyOneReckonsAlike(t *testing.T) {
	p := demo.Weekender()
	text, err := clip.Copy(p, all(p))
	require.NoError(t, err)
	empty := plan.New("Empty")
	empty.Settings = p.Settings
	next, added := paste(t, empty, text, geom.Point{X: 5, Y: -3})
	require.Len(t, added, p.Positions.Len()+p.Devices.Len()+p.Links.Len())
	require.Equal(t, p.Links.Len(), next.Links.Len())
	old, now := assess.Of(p), assess.Of(next)
	require.Equal(t, old.Totals.Metres, now.Totals.Metres, "cables come by kind and length")
	require.Equal(t, old.Totals.Joins, now.Totals.Joins)
}

func TestWhatIsPastedBesideItsOriginalHasFreeNames(t *testing.T) {
	p := demo.Weekender()
	text, err := clip.Copy(p, all(p))
	require.NoError(t, err)
	next, _ := paste(t, p, text, geom.Point{X: 500})
	require.Equal(t, 2*p.Devices.Len(), next.Devices.Len())
	require.Equal(t, p.Kinds.Len(), next.Kinds.Len(), "kinds alike are not doubled")
	names := map[string]bool{}
	for device := range next.Devices.All() {
		require.False(t, names[device.Name], device.Name)
		names[device.Name] = true
	}
	pairs := func(p *plan.Plan) (n int) {
		for link := range p.Links.All() {
			if link.Role == "main" {
				n++
			}
		}
		return n
	}
	require.Equal(t, 2*pairs(p), pairs(next), "main and backup stay a pair")
}

func TestAKindOfTheSameSlugAndAnotherContentComesInUnderItsOwn(t *testing.T) {
	p := demo.Weekender()
	text, err := clip.Copy(p, all(p))
	require.NoError(t, err)
	other, err := plan.Do(plan.New("Other"), nil, func(e *plan.Edit) error {
		kind := p.Kinds.At(0)
		kind.Inputs++
		plan.Put(e, kind)
		return nil
	})
	require.NoError(t, err)
	next, _ := paste(t, other, text, geom.Point{})
	require.Equal(t, p.Kinds.Len()+1, next.Kinds.Len())
	require.True(t, next.Kinds.Has(p.Kinds.At(0).Key()+"-2"))
}

func TestTextsThatAreNoClipAreRefused(t *testing.T) {
	for text, reason := range map[string]string{
		"":                         "not copied from a plan",
		"hello":                    "not copied from a plan",
		"stageloom clip 1\n{":      "damaged",
		"stageloom clip 1\n[1, 2]": "damaged",
		"stageloom clip 1\n{\"devices\": {\"set\": [{\"id\": \"d-22222\"}]}}": "damaged",
		strings.Repeat("x", 9<<20): "not copied from a plan",
	} {
		_, err := clip.Read(text)
		require.ErrorContains(t, err, reason)
	}
	_, err := clip.Copy(demo.Weekender(), nil)
	require.ErrorIs(t, err, clip.ErrNothing)
}

func TestAHostileClipIsRefusedWhole(t *testing.T) {
	c, err := clip.Read("stageloom clip 1\n" + `{"links": {"set": [{"id": "k-22222", "name": "x", "transport": "aes50", "from": "d-22222", "from_port": "A", "to": "d-33333", "to_port": "A", "way": "straight"}]}}`)
	require.NoError(t, err)
	p := demo.Weekender()
	_, err = plan.Do(p, plan.NewIDSource(1, 2), func(e *plan.Edit) error { _, err := c.Paste(e, geom.Point{}); return err })
	require.ErrorIs(t, err, plan.ErrRefused, "a link to devices that are not in the clip")
}

func TestWhateverIsCopiedCanBePasted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t, 40)
		text, err := clip.Copy(p, all(p))
		if err != nil {
			require.ErrorIs(t, err, clip.ErrNothing)
			return
		}
		next, added := paste(t, p, text, geom.Point{})
		require.NotEmpty(t, added)
		require.GreaterOrEqual(t, next.Devices.Len(), p.Devices.Len())
	})
}

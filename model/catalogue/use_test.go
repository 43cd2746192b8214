package catalogue_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

func TestAKindOfOnesOwnIsPutWhole(t *testing.T) {
	own := catalogue.DeviceKind{
		Kind:    plan.Kind{ID: "own", Group: "Stage boxes", Name: "Own box"},
		Ports:   []plan.KindPort{{Kind: "own", Name: "A", Transport: "aes50"}, {Kind: "own", Name: "B", Transport: "aes50"}},
		Sockets: []plan.KindSocket{{Kind: "own", Direction: "in", First: 1, Count: 8, Use: "mic"}},
		Ways:    []plan.KindWay{{Kind: "own", Port: "A", First: 1, Count: 8, Direction: "in", Socket: 1}},
	}
	put := func(p *plan.Plan, kind catalogue.DeviceKind) *plan.Plan {
		next, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error { kind.Put(e); return nil })
		require.NoError(t, err)
		return next
	}
	once := put(plan.New("Own"), own)
	require.True(t, once.Kinds.Has(own.Kind.Key()))
	require.Equal(t, []int{2, 1, 1}, []int{len(once.Ports("own")), once.KindSockets.Len(), once.KindWays.Len()})

	own.Kind.Name, own.Ports = "Another", append(own.Ports, plan.KindPort{Kind: "own", Name: "C", Transport: "aes50"})
	require.True(t, plan.Equal(once, put(once, own)), "what the plan holds under this slug stays as it is")
}

func TestOnesOwnKindGoesBeforeTheCatalogues(t *testing.T) {
	built := catalogue.DeviceKinds()[0]
	own := built
	own.Kind.Name = "Ours"
	use := func(id plan.KindID) (*plan.Plan, error) {
		return plan.Do(plan.New("Own"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
			return catalogue.UseKind(e, []catalogue.DeviceKind{own}, id)
		})
	}
	p, err := use(own.Kind.ID)
	require.NoError(t, err)
	kind, _ := p.Kinds.Get(own.Kind.Key())
	require.Equal(t, "Ours", kind.Name)
	other := catalogue.DeviceKinds()[1].Kind
	p, err = use(other.ID)
	require.NoError(t, err)
	require.True(t, p.Kinds.Has(other.Key()), "what is not one's own comes from the catalogue")
	_, err = use("nothing")
	require.ErrorIs(t, err, catalogue.ErrUnknown)
}

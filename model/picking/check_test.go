package picking_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

func requireFeasible(t testing.TB, p *picking.Problem, a *picking.Answer) { t.Helper(); require.Len(t, a.Picks, len(p.Links)) }

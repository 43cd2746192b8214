package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestAReelIsHiredWhereItsOwnerIsAnother(t *testing.T) {
	for _, c := range []struct {
		sentence string
		reel     plan.Reel
		by       string
		hired    bool
	}{
		{"nobody said", plan.Reel{}, "", false},
		{"the house", plan.Reel{Owner: "house"}, "", false},
		{"us", plan.Reel{Owner: "us"}, "", false},
		{"us, written otherwise", plan.Reel{Owner: " US "}, "", false},
		{"the house, with the reference of an old order", plan.Reel{Owner: "The House", Hire: "X-7", Return: "2027-06-01"}, "", false},
		{"another", plan.Reel{Owner: "Lender"}, "Lender", true},
		{"one whose name begins like ours", plan.Reel{Owner: "Usher Hire"}, "Usher Hire", true},
		{"an order without an owner", plan.Reel{Hire: "X-7"}, "", true},
		{"a day of return without an owner", plan.Reel{Return: "2027-06-01"}, "", true},
		{"of the house's stock, which has it from another", plan.Reel{Taking: "t-22222", Owner: "Lender", Hire: "X-7"}, "", false},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			by, hired := c.reel.Lender()
			require.Equal(t, c.hired, hired)
			require.Equal(t, c.by, by)
		})
	}
}

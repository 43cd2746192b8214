package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestADayTheCalendarDoesNotHaveIsNamed(t *testing.T) {
	for text, wrong := range map[string]string{
		"2027-99-99": "2027-99-99", "2027-02-29": "2027-02-29", "2027-06-19 to 2027-06-31": "2027-06-31", "by 2027-0-7, noon": "2027-0-7",
		"2028-02-29": "", "2027-6-9": "", "19 June 2027": "", "Monday": "", "": "",
	} {
		require.Equal(t, wrong, plan.NoSuchDay(text), text)
	}
}

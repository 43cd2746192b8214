package standards_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// mixedRun is a run of two kinds that is tight at 20 °C.
func mixedRun(t *testing.T) standards.Reckoning {
	t.Helper()
	return reckon(t, standards.Question{Chain: "cat6a-own:17.6 70 + cat5e 45", TemperatureC: celsius(20)})
}

func TestReckon(t *testing.T) {
	mixed := mixedRun(t)
	t.Run("steps mount to the loss and name what they are", func(t *testing.T) {
		require.Len(t, mixed.Steps, 4)
		total := 0.0
		for _, step := range mixed.Steps {
			total += step.LossDB
			require.InDelta(t, total, step.TotalDB, 1e-9)
			require.NotEmpty(t, step.Name)
			require.Equal(t, step.Kind == standards.ConnectionStep, step.Length == 0)
		}
		require.InDelta(t, mixed.LossDB, total, 1e-9)
		require.InDelta(t, mixed.LimitDB-mixed.LossDB, mixed.MarginDB, 1e-12)
	})
	t.Run("a tight run says that it is above the standard's and beyond its distance", func(t *testing.T) {
		notes := strings.Join(mixed.Notes, "\n")
		require.Contains(t, notes, "above the standard's 24.0 dB")
		require.Contains(t, notes, "115 m is outside the 100 m that AES50 states")
		require.Contains(t, notes, "never goes into a network port")
	})
	t.Run("at the low end of the band a healthy low-loss run touches the curve and is told so as advice", func(t *testing.T) {
		long := reckon(t, standards.Question{Chain: "cat6a-own:19.2 70 + cat6a-own:19.2 45", TemperatureC: celsius(20)})
		require.InDelta(t, 2.2, long.Advice.WorstMHz, 0.1)
		require.Negative(t, long.Advice.WorstMarginDB)
		require.Contains(t, strings.Join(long.Notes, "\n"), "advice, not the verdict")
	})
	t.Run("a run that is over hears no more about the curve", func(t *testing.T) {
		over := reckon(t, standards.Question{Chain: "cat6a-own:19.2 200", TemperatureC: celsius(20)})
		require.Equal(t, standards.Over, over.Grade)
		require.NotContains(t, strings.Join(over.Notes, "\n"), "advice, not the verdict")
	})
	t.Run("a short network link has nothing to tell but the caution", func(t *testing.T) {
		short := reckon(t, standards.Question{Chain: "cat6 30", TemperatureC: celsius(30), Transport: "1000base-t"})
		require.Equal(t, []string{standards.PowerCaution}, short.Notes)
	})
	t.Run("a temperature not given is 30 °C and wants 3 dB, and says so", func(t *testing.T) {
		blank := reckon(t, standards.Question{Chain: "cat5e 50"})
		require.InDelta(t, 30, blank.TemperatureC, 0)
		require.InDelta(t, 3, blank.WantedMarginDB, 0)
		require.Contains(t, strings.Join(blank.Notes, "\n"), "No temperature was given")
		require.InDelta(t, 1.5, reckon(t, standards.Question{Chain: "cat5e 50", TemperatureC: celsius(30)}).WantedMarginDB, 0)
	})
	t.Run("unscreened cable is refused to AES50 in words and passes on a network", func(t *testing.T) {
		question := standards.Question{Chain: "cat5e 20 + cat5e:unscreened 20"}
		require.Contains(t, reckon(t, question).Notes[0], "cable 2 is unscreened")
		question.Transport = "100base-tx"
		require.NotContains(t, strings.Join(reckon(t, question).Notes, "\n"), "unscreened")
	})
	t.Run("another rule and another wanted margin are taken", func(t *testing.T) {
		other := reckon(t, standards.Question{Chain: "cat5e 50", Rule: "channel-cat6", WantedMarginDB: 9})
		require.InDelta(t, 21.3, other.LimitDB, 0.05)
		require.Equal(t, standards.Tight, other.Grade)
	})
}

func TestAdvice(t *testing.T) {
	mixed := mixedRun(t)
	t.Run("delay and skew beyond 1000BASE-T's are told", func(t *testing.T) {
		long := reckon(t, standards.Question{Chain: "cat6a-own:16 60 + cat6a-own:16 60", Transport: "1000base-t"})
		notes := strings.Join(long.Notes, "\n")
		require.Contains(t, notes, "Delay 650 ns is over the 570 ns")
		require.Contains(t, notes, "does not fail by it")
		require.Contains(t, notes, "1000BASE-T allows 50 ns")
	})
	t.Run("power over the link is reckoned on a network, with its caution, and refused where it does not arrive", func(t *testing.T) {
		require.Empty(t, mixed.Advice.Power)
		network := reckon(t, standards.Question{Chain: "cat5e:26awg 110", Transport: "1000base-t"})
		require.Len(t, network.Advice.Power, len(standards.PowerTypes()))
		require.NoError(t, network.Advice.Power[0].Err)
		require.ErrorIs(t, network.Advice.Power[1].Err, pairline.ErrVoltageLow)
		require.Contains(t, network.Notes, standards.PowerCaution)
	})
	t.Run("short pieces of unlike cable are told to ring", func(t *testing.T) {
		chain := strings.TrimSuffix(strings.Repeat("cat5e:85ohm 2 + cat5e:115ohm 2 + ", 4), " + ")
		require.Contains(t, strings.Join(reckon(t, standards.Question{Chain: chain}).Notes, "\n"), "ring")
	})
}

func TestRiskAndReach(t *testing.T) {
	mixed := mixedRun(t)
	t.Run("risk grows with temperature and its range lies between its ends", func(t *testing.T) {
		hot := reckon(t, standards.Question{Chain: "cat6a-own:17.6 70 + cat5e 45", TemperatureC: celsius(50)})
		require.Greater(t, hot.Advice.Risk, mixed.Advice.Risk)
		require.Greater(t, hot.Advice.RiskFrom20, mixed.Advice.Risk)
		require.Less(t, hot.Advice.RiskFrom20, hot.Advice.Risk)
		require.InDelta(t, mixed.Advice.Risk, mixed.Advice.RiskFrom20, 1e-12)
	})
	t.Run("each construction has its reach, once, less with the wanted margin in hand", func(t *testing.T) {
		three := reckon(t, standards.Question{Chain: "cat5e 10 + cat6 10 + cat5e 20", TemperatureC: celsius(20)})
		require.Len(t, three.Reaches, 2)
		for _, reach := range three.Reaches {
			require.Equal(t, 2, reach.Couplers)
			require.Less(t, reach.Wanted, reach.Length)
		}
		require.InDelta(t, (25-4*0.4)/(1.2*21.975)*100, three.Reaches[0].Length, 1e-9)
	})
	t.Run("crosstalk and resistance are those of the line", func(t *testing.T) {
		require.Equal(t, mixed.Line.WorseEndNEXT(100), mixed.Advice.NEXT)
		require.InDelta(t, mixed.Advice.NEXT.LikelyDB-mixed.LossDB, mixed.Advice.ACRN.LikelyDB, 1e-9)
		require.InDelta(t, 115*2*0.089+2*0.06, mixed.Advice.LoopOhm, 1e-9)
	})
}

func TestReckonRefuses(t *testing.T) {
	cases := []struct {
		name string
		ask  standards.Question
		want string
	}{
		{"a bad chain", standards.Question{Chain: "cat9 5"}, "chain, cable 1"},
		{"an unknown transport", standards.Question{Chain: "cat5e 5", Transport: "aes51"}, `unknown transport "aes51"`},
		{"a transport without a budget", standards.Question{Chain: "cat5e 5", Transport: "fibre"}, `transport "fibre" has no loss budget; write one of aes50`},
		{"an unknown coupler", standards.Question{Chain: "cat5e 5", Coupler: "cat3"}, `unknown connecting hardware "cat3"`},
		{"an unknown rule", standards.Question{Chain: "cat5e 5", Rule: "none"}, `unknown limit rule "none"`},
		{"a temperature beyond the formulas", standards.Question{Chain: "cat5e 5", TemperatureC: celsius(80)}, "temperature is 80 °C; it must be from -20 to 60 °C"},
		{"a temperature that is no number", standards.Question{Chain: "cat5e 5", TemperatureC: celsius(math.NaN())}, "temperature is NaN °C"},
		{"a wanted margin under 1 dB", standards.Question{Chain: "cat5e 5", WantedMarginDB: 0.5}, "wanted margin is 0.5 dB; it must be from 1 to 20 dB"},
		{"a wanted margin that is no number", standards.Question{Chain: "cat5e 5", WantedMarginDB: math.NaN()}, "wanted margin is NaN dB"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := standards.Reckon(c.ask)
			require.ErrorContains(t, err, c.want)
		})
	}
}

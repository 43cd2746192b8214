package pairline_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
)

func TestDeliver(t *testing.T) {
	cases := []struct {
		name                    string
		sourceW, sourceV, ohm   float64
		deviceW, deviceV, amper float64
	}{
		// IEEE 802.3 clauses 33 and 145, published: what arrives over 100 m of cabling.
		{"class 3: 15.4 W at 44 V over 20 Ω leave 12.95 W", 15.4, 44, 20, 12.95, 37, 0.35},
		{"class 4: 30 W at 50 V over 12.5 Ω leave 25.5 W", 30, 50, 12.5, 25.5, 42.5, 0.6},
		{"class 6: 60 W at 50 V over 6.25 Ω leave 51.0 W", 60, 50, 6.25, 51, 42.5, 1.2},
		{"class 8: 90 W at 52 V over 6.25 Ω leave 71.3 W", 90, 52, 6.25, 71.3, 41.2, 1.731},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			feed, err := pairline.Deliver(c.sourceW, c.sourceV, c.ohm)
			require.NoError(t, err)
			require.InDelta(t, c.deviceW, feed.DevicePower, 0.1)
			require.InDelta(t, c.deviceV, feed.DeviceVoltage, 0.1)
			require.InDelta(t, c.amper, feed.Current, 0.001)
			require.InDelta(t, c.sourceW, feed.DevicePower+feed.LinePower, 1e-9, "no power is lost from the account")

			drawn, err := pairline.Draw(feed.DevicePower, c.sourceV, c.sourceV/2, c.ohm)
			require.NoError(t, err)
			require.InDelta(t, feed.Current, drawn.Current, 1e-9, "a device that draws what arrives draws the same current")
		})
	}
}

func TestPowerIsRefused(t *testing.T) {
	t.Run("where no current brings the power", func(t *testing.T) {
		_, err := pairline.Draw(30, 50, 0, 21)
		require.ErrorIs(t, err, pairline.ErrPowerBeyond)
		require.ErrorContains(t, err, "30 W from 50 V through 21 Ω; at most 29.76 W arrive")
	})
	t.Run("where the voltage falls under the least", func(t *testing.T) {
		_, err := pairline.Draw(25.5, 50, 42.5, 15)
		require.ErrorIs(t, err, pairline.ErrVoltageLow)
	})
	t.Run("where the raw formula would leave less than half the voltage", func(t *testing.T) {
		_, err := pairline.Deliver(30, 50, 84.2) // a link of 1000 m
		require.ErrorIs(t, err, pairline.ErrVoltageLow)
	})
	t.Run("over one pair or three", func(t *testing.T) {
		for _, pairs := range []int{-1, 0, 1, 3, 5} {
			_, err := pairline.FeedResistance(10, pairs)
			require.ErrorIs(t, err, pairline.ErrPairs)
		}
	})
	t.Run("exactly the most that a line bears is not refused", func(t *testing.T) {
		feed, err := pairline.Draw(50, 40, 20, 8)
		require.NoError(t, err)
		require.InDelta(t, 20, feed.DeviceVoltage, 1e-9)
	})
}

func TestLoopResistance(t *testing.T) {
	t.Run("copper gains 0.393 % per kelvin and loses it below 20 °C", func(t *testing.T) {
		hot, cold := reel("cat5e", 100), reel("cat5e", 100)
		hot.TemperatureC, cold.TemperatureC = 60, -20
		require.InDelta(t, 17.8*(1+40*0.00393), lineOf(hot).LoopResistance(), 1e-9)
		require.InDelta(t, 17.8*(1-40*0.00393), lineOf(cold).LoopResistance(), 1e-9)
	})
}

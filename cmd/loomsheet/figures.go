package main

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// Figures in tenths. A loss is rounded up and a margin down, as everywhere in Stageloom, so that limit less loss gives
// the margin printed.

func loss(lossDB float64) string { return budget.LossTenths(lossDB) + " dB" }

func margin(marginDB float64) string { return budget.TenthDB(marginDB) + " dB" }

// decibels prints limits, wanted margins and advice, to the nearest tenth.
func decibels(value float64) string { return quantity.PrintDecibels(value, 1) }

func metres(length float64) string { return quantity.PrintLength(length, quantity.Metric, 1) }

// temperature prints °C, with a tenth only where there is one.
func temperature(celsius float64) string {
	return strings.Replace(quantity.PrintTemperature(celsius, quantity.Metric, 1), ".0 ", " ", 1)
}

func nanoseconds(ns float64) string { return fmt.Sprintf("%.0f ns", ns) }

func megahertz(mhz float64) string { return fmt.Sprintf("%.3g MHz", mhz) }

// counted writes a number of things: no joins, 1 join, 2 joins.
func counted(n int, thing string) string {
	if n == 0 {
		return "no " + thing + "s"
	}
	return words.Counted(n, thing, thing+"s")
}

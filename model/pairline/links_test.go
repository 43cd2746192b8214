package pairline_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// linksFile holds links reckoned by an independent program from the same formulas; another file with the same columns
// may be named in the environment.
func linksFile() string {
	if named := os.Getenv("STAGELOOM_LINKS"); named != "" {
		return named
	}
	return "../../testdata/links.csv"
}

// solidOhm are the solid conductors of the independent program, in ohms per 100 m: cable makers' rounded figures, up to
// 0.3 % above the wire table that package standards holds.
var solidOhm = map[string]float64{"22s": 5.31, "23s": 6.70, "24s": 8.42}

// referenceLine reads "medium:length:factor:impedance:temperature:u|s" parts and connections "C6a", "D5e".
func referenceLine(t *testing.T, link, gauges string) pairline.Line {
	t.Helper()
	var line pairline.Line
	conductors := strings.Split(gauges, ",")
	for _, text := range strings.Split(link, "|") {
		if kind := text[1:]; text[0] == 'C' || text[0] == 'D' {
			hardware, err := standards.HardwareBySlug(standards.HardwareSlug("cat" + kind))
			require.NoError(t, err)
			line.Parts = append(line.Parts, hardware.Figures)
			if text[0] == 'D' {
				line.Parts = append(line.Parts, hardware.Figures)
			}
			continue
		}
		require.NotEmpty(t, conductors, "each segment has its gauge")
		line.Parts = append(line.Parts, referenceSegment(t, text, conductors[0]))
		conductors = conductors[1:]
	}
	return line
}

func referenceSegment(t *testing.T, text, gauge string) pairline.Segment {
	t.Helper()
	fields := strings.Split(text, ":")
	require.Len(t, fields, 6, text)
	cable, err := standards.CableBySlug(standards.CableSlug(fields[0]))
	require.NoError(t, err)
	ohm, found := solidOhm[gauge]
	if !found {
		slug := strings.NewReplacer("s", "awg-solid", "t", "awg-stranded").Replace(gauge)
		conductor, err := standards.ConductorBySlug(standards.ConductorSlug(slug))
		require.NoError(t, err)
		ohm = conductor.OhmPer100m
	}
	return pairline.Segment{
		Cable: cable.Figures, Length: number(t, fields[1]), StrandFactor: number(t, fields[2]), UnitFactor: 1,
		Impedance: number(t, fields[3]), TemperatureC: number(t, fields[4]), Screened: fields[5] == "s",
		ConductorOhmPer100m: ohm,
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

// byFrequency reckons the columns NAME@MHz.
var byFrequency = map[string]func(pairline.Line, float64) float64{
	"ILadd":  func(l pairline.Line, f float64) float64 { return l.Loss().At(f) },
	"ILcasc": func(l pairline.Line, f float64) float64 { return l.ResponseAt(f).LossDB },
	"RLnear": func(l pairline.Line, f float64) float64 { return l.ResponseAt(f).ReturnLossNearDB },
	"RLfar":  func(l pairline.Line, f float64) float64 { return l.ResponseAt(f).ReturnLossFarDB },
	"RLenv":  pairline.Line.ReturnLossEnvelopeDB,

	"NEXTpow":      func(l pairline.Line, f float64) float64 { return l.NEXT(f).LikelyDB },
	"NEXTpow_far":  func(l pairline.Line, f float64) float64 { return l.Reversed().NEXT(f).LikelyDB },
	"NEXTvolt":     func(l pairline.Line, f float64) float64 { return l.NEXT(f).WorstDB },
	"NEXTvolt_far": func(l pairline.Line, f float64) float64 { return l.Reversed().NEXT(f).WorstDB },
	"PSNEXTpow":    pairline.Line.PowerSumNEXTDB,
	"ACRFpow":      func(l pairline.Line, f float64) float64 { return l.ACRF(f).LikelyDB },
	"ACRFvolt":     func(l pairline.Line, f float64) float64 { return l.ACRF(f).WorstDB },

	"delay_std_ns":   pairline.Line.DelayNs,
	"delay_model_ns": pairline.Line.PhaseDelayNs,
}

// referenceGrid is the grid on which the independent program looked for the worst point.
var referenceGrid = pairline.LogGrid(4001)

func worst(l pairline.Line) (marginDB, freqMHz float64) {
	return pairline.WorstPoint(l.Loss().At, pairline.LinkSegmentLimit, referenceGrid)
}

// single reckons the columns without a frequency.
var single = map[string]func(pairline.Line) float64{
	"Mrule25":     func(l pairline.Line) float64 { return 25 - l.Loss().At(100) },
	"M8023@100":   func(l pairline.Line) float64 { return pairline.LinkSegmentLimit(100) - l.Loss().At(100) },
	"M8023_worst": func(l pairline.Line) float64 { margin, _ := worst(l); return margin },
	"M8023_worst_MHz": func(l pairline.Line) float64 {
		_, freq := worst(l)
		return freq
	},
	"Mdp24": func(l pairline.Line) float64 {
		return pairline.MeanMargin(l.Loss(), pairline.LinkSegmentLimit(pairline.GradeMHz))
	},
	"Mdp25":      func(l pairline.Line) float64 { return pairline.MeanMargin(l.Loss(), 25) },
	"Rpair_ohm":  pairline.Line.LoopResistance,
	"R2pair_ohm": func(l pairline.Line) float64 { return feedResistance(l, 2) },
	"R4pair_ohm": func(l pairline.Line) float64 { return feedResistance(l, 4) },
}

func feedResistance(l pairline.Line, pairs int) float64 {
	resistance, err := pairline.FeedResistance(l.LoopResistance(), pairs)
	if err != nil {
		return math.NaN()
	}
	return resistance
}

// powerColumn names the type of power of the columns T…_Ppd_W and T…_Vpd_V.
var powerColumn = map[string]standards.PowerSlug{
	"T1": "type1", "T2": "type2", "T3c5": "type3-class5", "T3c6": "type3-class6", "T4c7": "type4-class7", "T4c8": "type4-class8",
}

// requirePower holds the raw formula P − R(P/V)² to the file, and the program to it where it means something: the
// program refuses it where less than half the source's voltage is left.
func requirePower(t *testing.T, line pairline.Line, column string, want float64) {
	t.Helper()
	name, figure, _ := strings.Cut(column, "_")
	require.Contains(t, powerColumn, name, column)
	power, err := standards.PowerTypeBySlug(powerColumn[name])
	require.NoError(t, err)
	resistance := feedResistance(line, power.Pairs)
	current := power.SourcePower / power.SourceVoltage
	rawVolts := power.SourceVoltage - resistance*current
	raw := map[string]float64{"Vpd_V": rawVolts, "Ppd_W": power.SourcePower - resistance*current*current}
	require.Contains(t, raw, figure, column)
	requireClose(t, want, raw[figure], column)

	feed, err := power.Deliver(line.LoopResistance())
	if rawVolts < power.SourceVoltage/2 {
		require.ErrorIs(t, err, pairline.ErrVoltageLow, column)
		return
	}
	require.NoError(t, err, column)
	got := map[string]float64{"Vpd_V": feed.DeviceVoltage, "Ppd_W": feed.DevicePower}
	requireClose(t, want, got[figure], column)
}

// requireClose compares at 1e-6, or at the last of the nine digits of the file where that is coarser.
func requireClose(t *testing.T, want, got float64, column string) {
	t.Helper()
	require.InDelta(t, want, got, max(1e-6, 6e-9*math.Abs(want)), column)
}

func requireColumn(t *testing.T, line pairline.Line, column, text string) {
	t.Helper()
	want := number(t, text)
	if reckon, found := single[column]; found {
		requireClose(t, want, reckon(line), column)
		return
	}
	name, at, found := strings.Cut(column, "@")
	if !found {
		requirePower(t, line, column, want)
		return
	}
	require.Contains(t, byFrequency, name, "unknown column %s", column)
	requireClose(t, want, byFrequency[name](line, number(t, at)), column)
}

func TestLinksOfAnIndependentProgram(t *testing.T) {
	file, err := os.Open(linksFile())
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1, "the file has links")
	header := rows[0]
	require.Equal(t, []string{"id", "description", "link", "gauges"}, header[:4])
	for _, row := range rows[1:] {
		t.Run(fmt.Sprintf("link %s, %s, agrees in all columns", row[0], row[1]), func(t *testing.T) {
			line := referenceLine(t, row[2], row[3])
			require.NoError(t, line.Validate())
			for i := 4; i < len(header); i++ {
				requireColumn(t, line, header[i], row[i])
			}
		})
	}
}

package exchange_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"

	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

const (
	feetList   = "../../testdata/lists/warehouse/tidewater-feet.csv"
	metresList = "../../testdata/lists/warehouse/waldlager-1252.csv"
)

// warehouseMeans is what the words of both lists mean that nobody but their house can know.
var warehouseMeans = func() map[exchange.Said]string {
	means := map[exchange.Said]string{}
	for asks, said := range map[string]string{
		exchange.OfOwner: "us=house|Tidewater Sound=house|uns=house|nous=house|Haus Waldlager=house",
		exchange.OfKind: "Fibre OM drum=fibre-multimode|Stagebox-Leitung 6=cat6|RG-59 coax=coax|Câble intercom=intercom|Netzkabel schwarz=cat6a|" +
			"Kurze Strippe=cat5e|Multi 24=multicore-24|Multi 48=multicore-48|Digital-Strippe=audio-pair|LWL Trommel=fibre-multimode",
		exchange.OfCondition: "bent pin=suspect|jacket nicked=suspect|wackelt=suspect|grün markiert=good",
	} {
		for pair := range strings.SplitSeq(said, "|") {
			word, meaning, _ := strings.Cut(pair, "=")
			means[exchange.SaidOf(asks, word)] = meaning
		}
	}
	return means
}()

// warehouse reads one of the lists as the program does.
func warehouse(t *testing.T, path string, means map[exchange.Said]string) (exchange.Grid, exchange.Layout, exchange.Stock) {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	d, err := exchange.Read(path, bytes.NewReader(text))
	require.NoError(t, err)
	layout := exchange.Guess(d.Grids[0], exchange.StockFields())
	return d.Grids[0], layout, exchange.ReadStock(d.Grids[0], layout, exchange.Options{Kinds: catalogue.CableKinds(), Means: means})
}

// counts are cables by what a reader of the raw text counts.
type counts struct {
	cables, suspect, faulty, missing, repair, off, hired, served, weighed int
	metres, kilograms                                                     float64
	kinds                                                                 map[plan.CableKindID]int
}

func (c counts) near(t *testing.T, other counts) {
	t.Helper()
	require.InDelta(t, c.metres, other.metres, 1e-6)
	require.InDelta(t, c.kilograms, other.kilograms, 1e-6)
	c.metres, c.kilograms, other.metres, other.kilograms = 0, 0, 0, 0
	require.Equal(t, c, other)
}

func counted(s exchange.Stock) counts {
	c := counts{kinds: map[plan.CableKindID]int{}}
	for _, row := range s.Rows {
		for _, reel := range row.Reels {
			n := reel.Count()
			c.cables += n
			c.kinds[reel.Kind] += n
			c.metres += float64(n) * reel.Length
			c.kilograms += float64(n) * reel.Weight.Value
			c.suspect += n * btoi(reel.Condition == plan.Suspect)
			c.faulty += n * btoi(reel.Condition == plan.Faulty)
			c.missing += n * btoi(reel.State == plan.Missing)
			c.repair += n * btoi(reel.State == plan.InRepair)
			c.off += n * btoi(reel.State == plan.WrittenOff)
			c.hired += n * btoi(reel.Owner != "")
			c.served += n * btoi(row.Service.Day != "")
			c.weighed += n * btoi(reel.Weight.Set)
		}
	}
	return c
}

func btoi(is bool) int {
	if is {
		return 1
	}
	return 0
}

// rawFeet counts the list in feet by its raw text alone.
func rawFeet(t *testing.T) counts {
	text, err := os.ReadFile(feetList)
	require.NoError(t, err)
	lines, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	return countFeet(t, lines)
}

// countFeet counts the cells of the list in feet.
func countFeet(t *testing.T, lines [][]string) counts {
	c := counts{kinds: map[plan.CableKindID]int{}}
	for _, cell := range lines[1:] {
		if cell[2] == "" {
			continue
		}
		length, err := strconv.ParseFloat(cell[2], 64)
		require.NoError(t, err)
		if cell[3] != "m" {
			length *= 0.3048
		}
		c.metres += length
		c.cables++
		c.kinds[map[string]plan.CableKindID{
			"CAT 6A": "cat6a", "Fibre OM drum": "fibre-multimode", "Stagebox-Leitung 6": "cat6", "RG-59 coax": "coax", "Câble intercom": "intercom",
		}[cell[1]]]++
		c.suspect += btoi(cell[4] == "bent pin" || cell[4] == "jacket nicked" || cell[4] == "à vérifier")
		c.faulty += btoi(cell[4] == "defekt" || cell[4] == "kaputt")
		c.missing += btoi(cell[4] == "perdu" || cell[4] == "fehlt")
		c.repair += btoi(cell[4] == "in Reparatur")
		c.hired += btoi(cell[6] != "")
		c.served += btoi(cell[9] != "")
		if cell[8] != "" {
			pounds, err := strconv.ParseFloat(cell[8], 64)
			require.NoError(t, err)
			c.kilograms += pounds * 0.45359237
			c.weighed++
		}
	}
	return c
}

// rawMetres counts the list in metres by its raw text alone.
func rawMetres(t *testing.T) counts {
	raw, err := os.ReadFile(metresList)
	require.NoError(t, err)
	text, err := charmap.Windows1252.NewDecoder().Bytes(raw)
	require.NoError(t, err)
	c := counts{kinds: map[plan.CableKindID]int{}}
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\r\n")[2:] {
		cell := strings.Split(line, ";")
		n, err := strconv.Atoi(cell[0])
		require.NoError(t, err)
		length, err := strconv.ParseFloat(strings.Replace(cell[2], ",", ".", 1), 64)
		require.NoError(t, err)
		c.cables += n
		c.metres += float64(n) * length
		c.kinds[map[string]plan.CableKindID{
			"Netzkabel schwarz": "cat6a", "Cat 6A": "cat6a", "Kurze Strippe": "cat5e", "Multi 24": "multicore-24", "Multi 48": "multicore-48",
			"Digital-Strippe": "audio-pair", "LWL Trommel": "fibre-multimode",
		}[cell[1]]] += n
		c.suspect += n * btoi(cell[4] == "wackelt")
		c.faulty += n * btoi(cell[4] == "defekt")
		c.missing += n * btoi(cell[4] == "fehlt" || cell[4] == "verloren")
		c.off += n * btoi(cell[4] == "ausgemustert")
	}
	return c
}

func TestTwoOddListsOfAWarehouseAreTakenAsTheyAre(t *testing.T) {
	_, layout, feet := warehouse(t, feetList, warehouseMeans)
	require.Empty(t, faults(feet.Faults))
	require.Empty(t, feet.Unknown)
	require.Equal(t, []string{exchange.Tag, exchange.Kind, exchange.Length, exchange.Unit}, layout.Fields[:4])
	counted(feet).near(t, rawFeet(t))
	require.Len(t, feet.Told, 6, "five headings and a total")
	_, _, metres := warehouse(t, metresList, warehouseMeans)
	require.Empty(t, faults(metres.Faults))
	counted(metres).near(t, rawMetres(t))
	require.Len(t, metres.Told, 1)
	require.Equal(t, 400, counted(feet).cables+counted(metres).cables)
	c := counted(feet)
	require.Equal(t, []int{4, 2, 2, 1, 8}, []int{c.suspect, c.faulty, c.missing, c.repair, c.hired})
	c = counted(metres)
	require.Equal(t, []int{3, 1, 3, 1, 0}, []int{c.suspect, c.faulty, c.missing, c.off, c.hired})
	require.Equal(t, "gekürzt", metres.Rows[2].Reels[0].Note)
	require.Equal(t, []float64{47.5, 50}, []float64{metres.Rows[2].Reels[0].Length, metres.Rows[2].Reels[0].Nominal})
}

func TestEachRowOfAWarehousesListIsTakenOrTold(t *testing.T) {
	for _, path := range []string{feetList, metresList} {
		grid, layout, s := warehouse(t, path, nil)
		require.NotEmpty(t, s.Unknown)
		said := map[int]bool{layout.Head: true}
		for _, row := range s.Rows {
			said[row.Row] = true
		}
		for _, fault := range append(s.Faults, s.Told...) {
			said[fault.Row] = true
		}
		for row := range grid.Rows {
			require.True(t, said[row+1], "%s row %d", path, row+1)
		}
		for _, row := range s.Rows {
			for _, reel := range row.Reels {
				require.NotContains(t, []string{"us", "uns", "nous"}, reel.Owner)
			}
		}
	}
	_, _, s := warehouse(t, feetList, nil)
	require.Contains(t, askedOf(s), "owner: Tidewater Sound ×27")
	require.Contains(t, askedOf(s), "condition: bent pin ×2")
}

func TestBothListsOfAWarehouseOnceMoreChangeNothing(t *testing.T) {
	p := plan.New("Warehouse")
	for range 2 {
		for _, path := range []string{feetList, metresList} {
			_, _, s := warehouse(t, path, warehouseMeans)
			u := s.Against(p, words.Units{}, false)
			require.Empty(t, u.Changed)
			next, err := plan.Do(p, plan.NewIDSource(1, uint64(p.Reels.Len())), func(e *plan.Edit) error { return u.Add(e, catalogue.UseCable) })
			require.NoError(t, err)
			p = next
		}
	}
	cables, metres := 0, 0.0
	for reel := range p.Reels.All() {
		cables += reel.Count()
		metres += float64(reel.Count()) * reel.Length
	}
	require.Equal(t, 400, cables)
	require.Less(t, math.Abs(metres-rawFeet(t).metres-rawMetres(t).metres), 0.2, "a plan keeps millimetres")
	require.Equal(t, rawFeet(t).served, p.Services.Len())
}

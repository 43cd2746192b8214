package e2e_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// week is a warehouse's week: one house and three shows, each in a window of its own; it counts what is pressed and typed.
type week struct {
	t     *testing.T
	home  string
	shows []*festival
	// moved counts the cables that were taken, given back, received or set to a state.
	moved int
}

// showOf is a plan without a link, kept in a file of its own.
func showOf(t *testing.T, folder, name string, seed uint64) string {
	t.Helper()
	p, err := plan.Do(plan.New(name), plan.NewIDSource(seed, 3), func(*plan.Edit) error { return nil })
	require.NoError(t, err)
	path := filepath.Join(folder, name+".stageloom")
	file, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, planfile.Write(file, p))
	require.NoError(t, file.Close())
	return path
}

// TestAWarehousesWeekIsWorkedByKeys brings two odd lists of 400 cables in, sends three shows out that overlap in time, and has
// two cables missing, three faulty, one shortened and one that came with another show's truck, without a pointer. After each
// step the files are counted by a reader of their own.
func TestAWarehousesWeekIsWorkedByKeys(t *testing.T) {
	w := &week{t: t, home: t.TempDir()}
	folder := t.TempDir()
	for i, name := range []string{"Harbour nights", "Meadow stage", "Quarry concert"} {
		path := showOf(t, folder, name, uint64(i+1))
		f := &festival{program: newScreen(t, "1280x800").launch(w.home, nil, path), saved: path}
		f.do("mousemove", "1279", "799")
		w.shows = append(w.shows, f)
	}
	for _, part := range []struct {
		words string
		work  func()
	}{
		{"two lists", w.lists},
		{"three shows go out", w.out},
		{"what cannot be is refused", w.refused},
		{"the first show comes back", w.back},
		{"a stray is received", w.stray},
		{"the others come back", w.rest},
	} {
		before, moved := w.count(), w.moved
		part.work()
		t.Log(part.words, w.count()-before, "actions, cables", w.moved-moved)
	}
	t.Log(w.count(), "actions; cables moved", w.moved)
	require.LessOrEqual(t, 10*w.count(), perCable*w.moved+inFeet, "a tenth of what one cable at a time takes")
}

// perCable is what one cable at a time takes: it is found by its tag, how many is said, and a button pressed; inFeet are the
// lengths of the first list that were typed anew where the unit beside them is not read.
const perCable, inFeet = 3, 195

func (w *week) count() (actions int) {
	for _, show := range w.shows {
		actions += show.actions
	}
	return actions
}

// stock opens the house's stock in the window of a show.
func (f *festival) stock() {
	f.t.Helper()
	f.keys("ctrl+shift+h")
	f.until("the house's stock is open", func() bool { return f.state().Overlays == 1 && len(f.state().Lists) == 2 })
}

// away closes the house's stock and saves.
func (f *festival) away() {
	f.t.Helper()
	f.keys("Escape")
	f.closed("the house's stock is closed")
	f.keys("ctrl+s")
	f.until("saved", func() bool { return !f.state().Unsaved })
}

// scans types what a scanner would and waits until the show has so many more lines than before, or fewer.
func (f *festival) scans(text string, lines int) {
	f.t.Helper()
	f.types(text)
	f.keys("Return")
	f.until(text, func() bool { return len(f.state().list("show").Lines) == lines })
}

func (s state) list(name string) (list listState) {
	for _, each := range s.Lists {
		if each.Name == name {
			return each
		}
	}
	return listState{}
}

// has is how many of the house's list say this.
func (s state) has(words string) (count int) {
	for _, line := range s.list("house").Lines {
		if strings.Contains(line, words) {
			count++
		}
	}
	return count
}

func (w *week) read() warehouse {
	w.t.Helper()
	return readWarehouse(w.t, filepath.Join(w.home, "config", "stageloom", "stock.stageloom-stock"))
}

// stands checks that house and plans agree, that the house has its 400 cables, and what each show has.
func (w *week) stands(harbour, meadow, quarry int) warehouse {
	w.t.Helper()
	house := w.read()
	require.Equal(w.t, 400, house.pieces(nil))
	has := house.agrees(w.t, w.shows[0].saved, w.shows[1].saved, w.shows[2].saved)
	require.Equal(w.t, []int{harbour, meadow, quarry}, []int{has["Harbour nights"], has["Meadow stage"], has["Quarry concert"]})
	return house
}

// lists brings both lists into the house, with an answer to each word that it does not know.
func (w *week) lists() {
	f := w.shows[0]
	f.stock()
	for _, list := range []struct {
		name    string
		answers []string
	}{
		{"tidewater-feet.csv", []string{"suspect", "the house", "fibre m", "suspect", "cat 6 ", "coax", "intercom"}},
		{"waldlager-1252.csv", []string{"cat 6a", "suspect", "cat 5e", "analogue multicore 24", "analogue multicore 48", "digital audio", "the house", "fibre m", "good"}},
	} {
		f.keys("F12")
		f.until("the file is asked for", func() bool { return f.state().Overlays == 2 && strings.Contains(f.state().Focus, "Entry") })
		path, err := filepath.Abs(filepath.Join("../../testdata/lists/warehouse", list.name))
		require.NoError(f.t, err)
		f.types(path)
		f.keys("Return")
		for _, answer := range list.answers {
			f.until("a word is asked about", func() bool { return strings.Contains(f.state().Focus, "Chooser") })
			f.types(answer)
			f.keys("Return")
		}
		f.until("all is answered", func() bool { return strings.Contains(f.state().Focus, "Answer") })
		f.picture("warehouse-" + list.name)
		f.keys("Return")
		f.until("the list is in", func() bool { return f.state().Overlays == 1 })
	}
	f.keys("Escape")
	house := w.stands(0, 0, 0)
	for state, count := range map[string]int{plan.Missing: 5, plan.InRepair: 1, plan.WrittenOff: 1} {
		require.Equal(w.t, count, house.pieces(func(r rawReel) bool { return r.State == state }), state)
	}
	for fault, count := range map[string]int{plan.Suspect: 7, plan.Faulty: 3} {
		require.Equal(w.t, count, house.pieces(func(r rawReel) bool { return r.Fault == fault }), fault)
	}
	require.InDelta(w.t, 100*0.3048, house.tagged(w.t, "D002").Length, 1e-9)
}

// days says from when until when a show has its stock, in days from today.
func (f *festival) days(from, until int) {
	f.t.Helper()
	day := func(days int) string { return time.Now().AddDate(0, 0, days).Format(time.DateOnly) }
	f.keys("Tab", "Tab", "Tab", "Tab")
	f.types(day(from))
	f.keys("Tab")
	f.types(day(until))
	f.keys("Return", "F5")
}

// out sends three shows out, of which the first and the second, and the second and the third, overlap.
func (w *week) out() {
	for i, show := range []struct {
		from, until int
		scans       []scan
	}{
		{0, 1, []scan{{"D001-D060", 59}, {"20 x 5 m Cat 5e", 60}, {"8 x 100 m", 61}, {"B-case 1", 71}, {"V009-V029", 91}}},
		{0, 3, []scan{{"D061-D090", 29}, {"12 x 30 m", 30}, {"F001-F004", 34}, {"10 x 5 m Cat 5e", 35}}},
		{2, 5, []scan{{"D001-D030", 29}, {"I001-I020", 49}, {"25 x 15 m", 50}}},
	} {
		f := w.shows[i]
		f.stock()
		f.days(show.from, show.until)
		for _, scan := range show.scans {
			f.scans(scan.text, scan.lines)
		}
		f.picture("warehouse-out-" + string(rune('1'+i)))
		f.away()
	}
	w.stands(117, 55, 74)
	w.moved += 117 + 55 + 74
}

type scan struct {
	text  string
	lines int
}

// refused asks for what another show has on the same days: nothing is taken.
func (w *week) refused() {
	for i, tag := range []string{1: "D010", 2: "D070"} {
		if tag == "" {
			continue
		}
		f := w.shows[i]
		f.stock()
		lines, step := len(f.state().list("show").Lines), f.state().Step
		f.types(tag)
		f.keys("Return")
		f.picture("warehouse-refused-" + tag)
		require.Len(w.t, f.state().list("show").Lines, lines)
		require.Equal(w.t, step, f.state().Step)
		f.keys("Escape")
		f.closed("the house's stock is closed")
	}
	w.stands(117, 55, 74)
}

// asked types cables and asks how they come back.
func (f *festival) asked(text string) {
	f.t.Helper()
	f.types(text)
	f.keys("F11")
	f.until("asked how "+text+" comes back", func() bool { return f.state().Overlays == 2 })
}

// gone keeps what was said and waits until it is given back.
func (f *festival) gone() {
	f.t.Helper()
	step := f.state().Step
	f.keys("Return")
	f.until("given back", func() bool { return f.state().Overlays == 1 && f.state().Step == step+1 })
}

// back gives the first show's cables back: one is shorter, three are faulty, two did not come.
func (w *week) back() {
	f := w.shows[0]
	f.stock()
	f.keys("F3")
	f.asked("D012")
	f.types("45 ft")
	f.gone()
	f.asked("D013-D015")
	f.keys("Tab")
	f.types("faulty")
	f.keys("Tab")
	f.types("crushed by a forklift")
	f.picture("warehouse-faulty")
	f.gone()
	f.asked("all")
	f.keys("shift+Tab")
	f.types("D010, D011")
	f.picture("warehouse-missing")
	f.gone()
	f.away()
	w.told(2, "warehouse-promised") // two of those that did not come were promised to the third
	house := w.stands(0, 55, 72)
	w.moved += 117
	require.Equal(w.t, 7, house.pieces(func(r rawReel) bool { return r.State == plan.Missing }))
	require.Equal(w.t, 6, house.pieces(func(r rawReel) bool { return r.Fault == plan.Faulty }))
	require.InDelta(w.t, 45*0.3048, house.tagged(w.t, "D012").Length, 1e-9)
}

// stray receives a cable of the second show that came with the first one's truck; that show is told.
func (w *week) stray() {
	f := w.shows[0]
	f.stock()
	f.keys("F4")
	f.types("D065")
	f.keys("Return")
	f.until("it is in the house", func() bool { return f.state().has("D065") == 1 })
	f.picture("warehouse-stray")
	f.keys("Escape")
	f.closed("the house's stock is closed")
	w.told(1, "warehouse-told")
	w.stands(0, 54, 72)
	w.moved++
}

// told opens the house's stock in the window of a show, which marks what the house does not let it have, and saves that.
func (w *week) told(show int, picture string) {
	f := w.shows[show]
	f.stock()
	f.picture(picture)
	f.away()
}

// rest gives back what the other two have.
func (w *week) rest() {
	for i := range 2 {
		f := w.shows[1+i]
		f.stock()
		f.keys("F3")
		f.types("all")
		f.keys("Return")
		f.until("all goes back", func() bool { return f.state().Unsaved })
		f.picture("warehouse-rest-" + string(rune('1'+i)))
		f.away()
	}
	house := w.stands(0, 0, 0)
	w.moved += 54 + 72
	require.Empty(w.t, house.agrees(w.t))
	require.Equal(w.t, 7, house.pieces(func(r rawReel) bool { return r.State == plan.Missing }))
	require.Equal(w.t, 6, house.pieces(func(r rawReel) bool { return r.Fault == plan.Faulty }))
}

package desk_test

import (
	"bufio"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// dying is a house whose program is killed now and then when the plan is written and the stock is not yet.
type dying struct {
	house.Keeper
	random *rand.Rand
}

func (d dying) Save(p *plan.Plan, path string, write func(*plan.Plan) error) (told, warned []string, err error) {
	return d.Keeper.Save(p, path, func(marked *plan.Plan) error {
		err := write(marked)
		if d.random.IntN(12) == 0 {
			self, _ := os.FindProcess(os.Getpid())
			_ = self.Kill()
			select {} // it takes effect at once
		}
		return err
	})
}

// working is a program that works on the plans of a folder with one house.
type working struct {
	folder  string
	random  *rand.Rand
	library house.Library
	desk    *desk.Desk
}

func newWorking(folder string, seed uint64) *working {
	w := &working{folder: folder, random: rand.New(rand.NewPCG(seed, 4)), library: house.Open(filepath.Join(folder, "house"))}
	w.desk = desk.New(plan.NewIDSource(seed, 5))
	w.desk.KeepJournal(filepath.Join(folder, "unsaved"))
	w.desk.SettleWith(dying{w.keeper(), w.random})
	return w
}

func (w *working) keeper() house.Keeper {
	return house.Keeper{Library: func() house.Library { return w.library }, Today: func() string { return "2027-06-22" }}
}

// takeForever takes, gives back, undoes, saves and copies; after each of these it says so. It never ends by itself.
func takeForever(folder string, seed uint64) {
	w := newWorking(folder, seed)
	for {
		if err := w.step(); err != nil {
			fmt.Println("wrong:", err)
			os.Exit(1)
		}
		fmt.Println("done")
	}
}

func (w *working) step() error {
	switch w.random.IntN(10) {
	case 0, 1:
		return w.openAny()
	case 2, 3, 4:
		return w.takeAny()
	case 5:
		return w.giveAny()
	case 6:
		w.desk.GoTo(w.random.IntN(4))
		return nil
	case 7, 8:
		return w.save(w.desk.Save)
	}
	if paths, err := w.plans(); err != nil || len(paths) > 7 {
		return err
	}
	path := filepath.Join(w.folder, fmt.Sprintf("copy-%d", w.random.IntN(1_000_000)))
	if w.random.IntN(2) == 0 && w.desk.Path() != "" { // by the file manager
		text, err := os.ReadFile(w.desk.Path())
		if err != nil {
			return err
		}
		return os.WriteFile(path+planfile.Extension, text, 0o600)
	}
	return w.save(func() error { return w.desk.SaveAs(path, false) })
}

func (w *working) plans() ([]string, error) {
	return filepath.Glob(filepath.Join(w.folder, "*"+planfile.Extension))
}

func (w *working) openAny() error {
	paths, err := w.plans()
	if err != nil {
		return err
	}
	return w.desk.Open(paths[w.random.IntN(len(paths))])
}

// refused takes what a person would be told for no fault.
func refused(err error) error {
	var readOnly *desk.ReadOnly
	var overwrite *planfile.Overwrite
	var held *planfile.Held
	if errors.Is(err, plan.ErrRefused) || errors.Is(err, desk.ErrNoPath) || errors.As(err, &readOnly) || errors.As(err, &overwrite) || errors.As(err, &held) {
		return nil
	}
	return err
}

// save saves, and makes a plan of its own of a copy.
func (w *working) save(save func() error) error {
	err := save()
	if copied := (*house.Copied)(nil); errors.As(err, &copied) {
		w.desk.OwnIdentity()
		err = save()
	}
	return refused(err)
}

func (w *working) takeAny() error {
	stock, err := w.library.Stock()
	if err != nil {
		return err
	}
	row := stock.Plan.Reels.At(w.random.IntN(stock.Plan.Reels.Len()))
	return refused(w.desk.Do("Take", func(e *plan.Edit) error {
		return stock.Take(e, house.Want{Reel: row.ID, Quantity: 1 + w.random.IntN(2)})
	}))
}

func (w *working) giveAny() error {
	if w.desk.Plan().Reels.Len() == 0 {
		return nil
	}
	row := w.desk.Plan().Reels.At(w.random.IntN(w.desk.Plan().Reels.Len()))
	return refused(w.desk.Do("Give back", func(e *plan.Edit) error {
		return house.GiveBack(e, "2027-06-23", house.Return{Reel: row.ID, Quantity: 1})
	}))
}

func TestTwoProgramsThatAreKilledKeepEachPieceInOnePlace(t *testing.T) {
	rounds := 10
	if testing.Short() {
		rounds = 3
	}
	folder := t.TempDir()
	library := house.Open(filepath.Join(folder, "house"))
	require.NoError(t, library.ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		for i := range 5 {
			e.AddReel(plan.Reel{Tag: fmt.Sprintf("A%02d", i), Kind: "cat6a", Length: 100})
		}
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 9})
		return nil
	}))
	for i := range 3 {
		_, err := planfile.Replace(filepath.Join(folder, fmt.Sprintf("show-%d", i)+planfile.Extension), plan.New("Show"), nil)
		require.NoError(t, err)
	}
	random := rand.New(rand.NewPCG(3, 1))
	for round := range rounds {
		ended := make(chan error, 2)
		for each := range 2 {
			seed, steps := uint64(10*round+each), 10+random.IntN(50)
			go func() { ended <- killedWhileTaking(folder, seed, steps) }()
		}
		require.NoError(t, <-ended)
		require.NoError(t, <-ended)
	}
	settleAll(t, folder)
	requireOnePlace(t, folder)
}

// killedWhileTaking lets a program take for some steps and kills it; mostly it was killed before.
func killedWhileTaking(folder string, seed uint64, steps int) error {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), "STAGELOOM_TAKING_CHILD="+folder, "STAGELOOM_TAKING_SEED="+strconv.FormatUint(seed, 10))
	said, err := child.StdoutPipe()
	if err != nil {
		return err
	}
	if err := child.Start(); err != nil {
		return err
	}
	last := "done"
	for lines := bufio.NewScanner(said); steps > 0 && lines.Scan(); steps-- {
		last = lines.Text()
	}
	_ = child.Process.Kill()
	_ = child.Wait()
	if last != "done" {
		return errors.New(last)
	}
	return nil
}

// settleAll opens and saves each plan of a folder, twice: what one gave back the next may have.
func settleAll(t *testing.T, folder string) {
	t.Helper()
	for range 2 {
		w := newWorking(folder, rand.Uint64())
		w.desk.SettleWith(w.keeper())
		paths, err := w.plans()
		require.NoError(t, err)
		require.Greater(t, len(paths), 3, "there are copies")
		for _, path := range paths {
			require.NoError(t, w.desk.Open(path))
			require.Empty(t, w.desk.ReadOnly())
			require.NoError(t, w.save(w.desk.Save))
			require.False(t, w.desk.Unsaved())
		}
		w.desk.Close()
	}
}

// requireOnePlace counts from the files alone where each piece is: what plans say that they have is what the house says, and no
// piece is in two places.
func requireOnePlace(t *testing.T, folder string) {
	t.Helper()
	stock, err := house.Open(filepath.Join(folder, "house")).Stock()
	require.NoError(t, err)
	type taking struct{ plan, id string }
	inPlans, inHouse := map[taking]int{}, map[taking]int{}
	out, known := map[string]int{}, map[string]bool{}
	paths, err := filepath.Glob(filepath.Join(folder, "*"+planfile.Extension))
	require.NoError(t, err)
	for _, path := range paths {
		p, _, err := planfile.Open(path)
		require.NoError(t, err)
		require.NotEmpty(t, p.Settings.Identity)
		if lacks(p) < p.Reels.Len() {
			require.False(t, known[p.Settings.Identity], "two files hold what one plan has")
		}
		known[p.Settings.Identity] = true
		for row := range p.Reels.All() {
			if there := row.There(); there > 0 {
				inPlans[taking{p.Settings.Identity, row.Taking}] += there
				out[row.HouseReel] += there
			}
		}
	}
	for _, each := range stock.Takings {
		require.Zero(t, each.Came)
		inHouse[taking{each.Plan, each.ID}] += each.Quantity
	}
	require.Equal(t, inHouse, inPlans)
	require.NotEmpty(t, inPlans, "something is out")
	for row := range stock.Plan.Reels.All() {
		require.LessOrEqual(t, out[string(row.ID)], row.Count())
		require.Equal(t, row.Count()-out[string(row.ID)], stock.Left(row))
	}
}

package sources_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

func TestThePatchSaysWhatTheRowsOfThePlanSay(t *testing.T) {
	p := demo.Weekender()
	for _, name := range []string{"patch", "inputs"} {
		s := houseOf(t, p, name)
		plugged, channels := 0, 0
		for row := range s.Len() {
			id := plan.InputID(s.Ref(row).Key)
			at, found := p.StagePatches.Get(plan.StagePatch{Input: id}.Key())
			if !found {
				continue
			}
			box, _ := p.Device(at.Device)
			told := s.says(row, "socket")
			require.True(t, strings.HasPrefix(told, box.Name) && strings.HasSuffix(told, fmt.Sprintf(" %d", at.Socket)), "%s: %s", s.RowName(row), told)
			plugged++
			for channel := range p.ConsolePatches.All() {
				console, _ := p.Device(channel.Console)
				column, shown := s.at[sources.ConsoleColumn+console.Name]
				if shown && channel.Act == "" && channel.Device == at.Device && channel.Socket == at.Socket {
					said := strings.NewReplacer(" ×", "", ",", " ").Replace(s.Cell(row, column).Text)
					require.Contains(t, strings.Fields(said), fmt.Sprint(channel.Channel), "%s on %s", s.RowName(row), console.Name)
					channels++
				}
			}
		}
		require.Greater(t, plugged, 20)
		require.True(t, name == "inputs" || channels > 20, channels)
	}
}

func TestEachSocketOfEachDeviceIsARow(t *testing.T) {
	p := demo.Weekender()
	s := houseOf(t, p, "sockets")
	rows := map[string]int{}
	for row := range s.Len() {
		rows[s.says(row, "device")+strings.Fields(s.says(row, "socket"))[0]]++
	}
	for device := range p.Devices.All() {
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		require.Equal(t, kind.Inputs, rows[device.Name+"in"], device.Name)
		require.Equal(t, kind.Outputs, rows[device.Name+"out"], device.Name)
	}
	held := 0
	for at := range p.StagePatches.All() {
		if at.Act == "" && !at.Strike {
			input, _ := p.Inputs.Get(plan.Key(at.Input))
			box, _ := p.Device(at.Device)
			row := s.row(fmt.Sprintf("%s in %d", box.Name, at.Socket))
			require.Contains(t, s.says(row, "holds"), fmt.Sprintf("%d %s", input.Number, input.Name))
			require.Equal(t, input.Phantom, s.says(row, "power") == "wanted")
			held++
		}
	}
	require.Greater(t, held, 20)
}

func TestAnActCountsWhatItHasOtherwiseThanTheHouse(t *testing.T) {
	p := demo.Weekender()
	act := p.Acts.At(0)
	own := func(p *plan.Plan) int {
		s := houseOf(t, p, "acts")
		return int(s.Cell(s.row(act.Name), s.at["own"]).Value)
	}
	before := own(p)
	s := pageOf(t, assess.Of(p), "patch", act.ID, words.Units{})
	told := map[string]int{}
	for row := range s.Len() {
		told[s.says(row, "stands")]++
	}
	require.Equal(t, before, told["different"]+told["not used"]+told["this act's"])
	row := 0
	for s.says(row, "stands") != "as in the house" {
		row++
	}
	next, err := s.types(row, "socket", "strike")
	require.NoError(t, err)
	require.Equal(t, before+1, own(next))
	after := pageOf(t, assess.Of(next), "patch", act.ID, words.Units{})
	require.Equal(t, "not used", after.says(row, "stands"))
	require.Equal(t, "not used", after.says(row, "socket"))
	other := pageOf(t, assess.Of(next), "patch", p.Acts.At(1).ID, words.Units{})
	require.NotEqual(t, "not used", other.says(row, "socket"), "every other act has it")
	again, err := after.types(row, "socket", "")
	require.NoError(t, err)
	require.Equal(t, before, own(again))
	require.True(t, plan.Equal(p, again))
	fiddle := houseOf(t, show(t), "inputs")
	require.Equal(t, "The Hay Bales", fiddle.says(fiddle.row("input 2 Fiddle"), "act"))
	mine := pageOf(t, assess.Of(show(t)), "patch", show(t).Acts.At(0).ID, words.Units{})
	require.Equal(t, "this act's", mine.says(mine.row("input 2 Fiddle"), "stands"))
	require.Equal(t, 1, houseOf(t, show(t), "patch").Len(), "the house has no input of an act")
}

// list is a plan of a console, boxes and inputs 1 to 6 that are plugged in nowhere.
func list(t *testing.T, boxes ...string) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("List"), plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		require.NoError(t, catalogue.Use(e, "stagebox-40-20"))
		require.NoError(t, catalogue.Use(e, "console-56"))
		desk := e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56"})
		for i, name := range boxes {
			box := e.AddDevice(plan.Device{Name: name, Kind: "stagebox-40-20"})
			e.AddLink(plan.Link{Transport: "aes50", From: box, FromPort: "AES50 1", To: desk, ToPort: fmt.Sprintf("AES50 %d", i+1)})
		}
		for number := range 6 {
			e.AddInput(plan.Input{Number: number + 1, Name: fmt.Sprintf("Voice %d", number+1), Use: "mic"})
		}
		e.AddOutput(plan.Output{Number: 1, Name: "Main left"})
		return nil
	})
	require.NoError(t, err)
	return p
}

func column(s page, column string) (said []string) {
	for row := range s.Len() {
		said = append(said, s.says(row, column))
	}
	return said
}

func TestOneTextTypedIntoSeveralRowsCountsOn(t *testing.T) {
	p := list(t, "Box")
	next, errs := houseOf(t, p, "patch").pastes(1, "socket", true, "5", "5", "5")
	require.Empty(t, failed(errs), "a number alone is meant of the only box")
	require.Equal(t, []string{"", "Box in 5", "Box in 6", "Box in 7", "", ""}, column(houseOf(t, next, "patch"), "socket"))
	next, errs = houseOf(t, next, "patch").pastes(1, sources.ConsoleColumn+"FOH", true, "20", "20", "20")
	require.Empty(t, failed(errs))
	s := houseOf(t, next, "patch")
	require.Equal(t, []string{"", "20", "21", "22", "", ""}, column(s, sources.ConsoleColumn+"FOH"))
	require.InDelta(t, 21, s.Cell(2, s.at[sources.ConsoleColumn+"FOH"]).Value, 0)
	held := houseOf(t, next, "sockets")
	require.Equal(t, "FOH 20", held.says(held.row("Box in 5"), "channels"))
	swapped, errs := houseOf(t, next, "patch").pastes(1, "socket", false, "Box 6", "Box 5")
	require.Empty(t, failed(errs), "two that are pasted together change places")
	require.Equal(t, []string{"", "Box in 6", "Box in 5", "Box in 7", "", ""}, column(houseOf(t, swapped, "patch"), "socket"))
	off, errs := houseOf(t, next, "patch").pastes(1, sources.ConsoleColumn+"FOH", false, "", "-", "30 ×")
	require.Empty(t, failed(errs))
	require.Equal(t, []string{"", "", "", "30", "", ""}, column(houseOf(t, off, "patch"), sources.ConsoleColumn+"FOH"))
	filled, errs := houseOf(t, p, "sockets").pastes(0, "holds", true, "Voice 2", "Voice 2", "Voice 2")
	require.Empty(t, failed(errs))
	require.Equal(t, []string{"", "Box in 1", "Box in 2", "Box in 3", "", ""}, column(houseOf(t, filled, "patch"), "socket"), "the list goes on socket by socket")
	_, errs = houseOf(t, p, "sockets").pastes(0, "holds", true, "6", "6")
	require.ErrorContains(t, errs[1], "the input list ends with input 6 Voice 6")
}

// failed are the errors among what a paste reports.
func failed(errs []error) (wrong []error) {
	for _, err := range errs {
		if err != nil {
			wrong = append(wrong, err)
		}
	}
	return wrong
}

func TestOneWrongCellOfAPasteIsNamedAndNoneIsTaken(t *testing.T) {
	p := list(t, "Box", "Riser")
	s := houseOf(t, p, "patch")
	for column, typed := range map[string][]string{
		"socket":                      {"Box 1", "nowhere 2", "Riser 3"},
		sources.ConsoleColumn + "FOH": {"1", "0", "3"},
	} {
		next, errs := s.pastes(0, column, false, typed...)
		require.Len(t, errs, 3)
		require.NoError(t, errs[0])
		require.Error(t, errs[1], "the wrong one is told")
		require.NoError(t, errs[2])
		require.True(t, next == nil || plan.Equal(p, next))
	}
	_, err := s.types(0, "socket", "5")
	require.Error(t, err, "of two boxes a number alone is neither")
	next, err := s.types(0, "socket", "riser 5")
	require.NoError(t, err)
	again, err := houseOf(t, next, "patch").types(0, "socket", "7")
	require.NoError(t, err)
	require.Equal(t, "Riser in 7", houseOf(t, again, "patch").says(0, "socket"), "a number alone is of the box that it is on")
	_, err = houseOf(t, next, "patch").types(0, "socket", "Riser 41")
	require.Error(t, err, "the box has 40")
}

func TestAnOutputComesFromTheOnlyConsoleAndOneOfNoSocketIsStillARow(t *testing.T) {
	p := list(t, "Box")
	s := houseOf(t, p, "outputs")
	next, err := s.types(0, "socket", "Box 3")
	require.NoError(t, err)
	after := houseOf(t, next, "outputs")
	require.Equal(t, []string{"FOH", "Box out 3"}, []string{after.says(0, "console"), after.says(0, "socket")})
	sockets := houseOf(t, next, "sockets")
	require.Equal(t, "from FOH", sockets.says(sockets.row("Box out 3"), "channels"))
	lost, err := plan.Do(next, nil, func(e *plan.Edit) error {
		row := e.Now().OutputPatches.At(0)
		row.Socket = 99
		plan.Put(e, row)
		return nil
	})
	require.NoError(t, err)
	sockets = houseOf(t, lost, "sockets")
	row := sockets.row("Box out 99")
	require.Equal(t, "1 Main left", sockets.says(row, "holds"), "a socket that the box has not")
	off, err := sockets.types(row, "holds", "")
	require.NoError(t, err)
	require.Empty(t, houseOf(t, off, "outputs").says(0, "socket"))
}

func TestARowOfTheSocketsIsReadBackFromItsName(t *testing.T) {
	for _, socket := range []patch.Socket{{Device: "d-22222", Number: 1}, {Device: "d-22222", Number: 1024, Output: true}} {
		read, found := sources.SocketAt(sources.SocketRef(socket))
		require.True(t, found)
		require.Equal(t, socket, read)
	}
	for _, ref := range []plan.Ref{{}, {Table: "devices", Key: "d-22222", Part: "in 1"}, {Table: "sockets", Key: "d-22222"}, {Table: "sockets", Key: "d-22222", Part: "in x"}} {
		_, found := sources.SocketAt(ref)
		require.False(t, found)
	}
	s := houseOf(t, list(t, "Box"), "sockets")
	_, errs := s.pastes(0, "holds", false, "1")
	require.Empty(t, failed(errs))
	all := s.Source.(table.Joiner).AllSetter(s.at["holds"])
	_, err := plan.Do(s.plan, nil, func(e *plan.Edit) error {
		return all(e, []table.Typed{{Ref: plan.Ref{Table: "sockets"}, Text: "1"}}, false)[0]
	})
	require.ErrorContains(t, err, "no such socket any more")
}

func TestOwnersOfAnOutputAreRefused(t *testing.T) {
	s := houseOf(t, list(t, "Box"), "sockets")
	out := s.row("Box out 1")
	_, err := s.types(out, "gain", "FOH")
	require.ErrorContains(t, err, "an output has no preamp")
	_, err = s.types(out, "gain", " ")
	require.NoError(t, err)
	require.Contains(t, s.Choices(s.row("Box in 1"), s.at["gain"]), "FOH")
}

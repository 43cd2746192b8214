package sources_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// booth is the demo seen by a table of the patch, act by act.
type booth struct {
	t    *testing.T
	plan *plan.Plan
}

func (b *booth) look(sheet string, act plan.ActID) table.Source {
	b.t.Helper()
	chosen, found := sources.Named(sheet)
	require.True(b.t, found)
	require.True(b.t, chosen.Acts)
	return chosen.Of(assess.Of(b.plan), sources.View{Act: act, Channels: true})
}

// place is a cell by the names of its row and its column.
func (b *booth) place(s table.Source, row, column string) (int, int) {
	b.t.Helper()
	for r := range s.Len() {
		for c, at := range s.Columns() {
			if s.RowName(r) == row && at.Title == column {
				return r, c
			}
		}
	}
	b.t.Fatalf("no %s of %s", column, row)
	return 0, 0
}

func (b *booth) says(sheet string, act plan.ActID, row, column string) table.Cell {
	b.t.Helper()
	s := b.look(sheet, act)
	r, c := b.place(s, row, column)
	return s.Cell(r, c)
}

func (b *booth) types(sheet string, act plan.ActID, row, column, typed string) error {
	b.t.Helper()
	s := b.look(sheet, act)
	r, c := b.place(s, row, column)
	next, err := plan.Do(b.plan, plan.NewIDSource(6, 6), func(e *plan.Edit) error { return s.Setter(c)(e, s.Ref(r), typed) })
	if err == nil {
		b.plan = next
	}
	return err
}

func TestWhoGetsWhatActByAct(t *testing.T) {
	b := &booth{t, demo.Weekender()}
	brass, turbines := b.plan.Acts.At(0).ID, b.plan.Acts.At(2).ID
	t.Run("what an act has from the house is muted, what it has otherwise is not", func(t *testing.T) {
		require.Equal(t, table.Muted, b.says("patch", turbines, "input 1 Kick in", "Socket").Tone)
		require.Equal(t, table.Usual, b.says("patch", "", "input 1 Kick in", "Socket").Tone)
		require.Equal(t, "as in the house", b.says("patch", turbines, "input 1 Kick in", "In this act").Text)
		require.NoError(t, b.types("patch", brass, "input 1 Kick in", "Socket", "not used"))
		require.Equal(t, "not used", b.says("patch", brass, "input 1 Kick in", "In this act").Text)
		require.Equal(t, "Riser box in 1", b.says("patch", "", "input 1 Kick in", "Socket").Text)
	})
	t.Run("a guest has a column only in the act that brings it", func(t *testing.T) {
		guest := func(act plan.ActID) (found bool) {
			for _, column := range b.look("patch", act).Columns() {
				found = found || column.Title == "Guest console"
			}
			return found
		}
		require.True(t, guest(turbines))
		require.False(t, guest(""))
		id, found := sources.ConsoleOf(assess.Of(b.plan), turbines, "console Guest console")
		require.True(t, found)
		console, _ := b.plan.Device(id)
		require.Equal(t, "Guest console", console.Name)
		_, found = sources.ConsoleOf(assess.Of(b.plan), "", "console Guest console")
		require.False(t, found)
	})
	t.Run("a wrong word changes nothing and says what to write", func(t *testing.T) {
		for column, c := range map[string][2]string{
			"Socket":      {"nowhere 3", "no device with such sockets is called nowhere"},
			"FOH console": {"first", `"first" is no channel`},
		} {
			require.ErrorContains(t, b.types("patch", "", "input 1 Kick in", column, c[0]), c[1])
		}
		require.ErrorContains(t, b.types("patch", "", "input 1 Kick in", "Socket", "not used"), "only an act does without")
	})
	t.Run("what collides is marked where it is", func(t *testing.T) {
		was := b.plan
		next, err := plan.Do(b.plan, nil, func(e *plan.Edit) error {
			row, _ := e.Now().StagePatches.Get(plan.StagePatch{Input: inputOf(t, e.Now(), 1)}.Key())
			plan.Put(e, plan.StagePatch{Input: inputOf(t, e.Now(), 2), Device: row.Device, Socket: row.Socket})
			return nil
		})
		require.NoError(t, err)
		b.plan = next
		require.Equal(t, table.Stop, b.says("patch", "", "input 1 Kick in", "Socket").Tone)
		require.Contains(t, b.says("patch", "", "input 1 Kick in", "What is wrong").Text, "stop: ")
		require.Equal(t, table.Stop, b.says("sockets", "", "Riser box in 1", "Holds").Tone)
		b.plan = was
	})
}

func inputOf(t *testing.T, p *plan.Plan, number int) plan.InputID {
	t.Helper()
	for input := range p.Inputs.All() {
		if input.Number == number {
			return input.ID
		}
	}
	t.Fatalf("no input %d", number)
	return ""
}

func TestSocketsHoldWhatIsTyped(t *testing.T) {
	b := &booth{t, demo.Weekender()}
	act := b.plan.Acts.At(0).ID
	require.Equal(t, "1 Kick in", b.says("sockets", "", "Riser box in 1", "Holds").Text)
	require.NoError(t, b.types("sockets", act, "Riser box in 1", "Holds", ""))
	require.Empty(t, b.says("sockets", act, "Riser box in 1", "Holds").Text)
	require.Equal(t, "1 Kick in", b.says("sockets", "", "Riser box in 1", "Holds").Text, "the house stays")
	require.NoError(t, b.types("sockets", act, "Riser box in 1", "Holds", "kick in"))
	require.Equal(t, "1 Kick in", b.says("sockets", act, "Riser box in 1", "Holds").Text)
	require.ErrorContains(t, b.types("sockets", act, "Riser box in 1", "Holds", "Tuba"), `no input here is "Tuba"`)
	t.Run("owners of a preamp are named and taken back", func(t *testing.T) {
		require.NoError(t, b.types("sockets", act, "Broadcast rack in 1", "Gain by", "FOH console"))
		require.NoError(t, b.types("sockets", act, "Broadcast rack in 1", "48 V by", "Monitor"))
		require.Equal(t, 1, ownersOf(b.plan, act))
		require.NoError(t, b.types("sockets", act, "Broadcast rack in 1", "Gain by", ""))
		require.NoError(t, b.types("sockets", act, "Broadcast rack in 1", "48 V by", ""))
		require.Zero(t, ownersOf(b.plan, act))
		require.ErrorContains(t, b.types("sockets", act, "Broadcast rack in 1", "Gain by", "nobody"), "is none of")
	})
	t.Run("an output leaves by the socket that it is typed into", func(t *testing.T) {
		output := b.plan.Outputs.At(0)
		free := ""
		s := b.look("sockets", "")
		for row := range s.Len() {
			if socket, _ := sources.SocketAt(s.Ref(row)); socket.Output && s.Cell(row, 2).Text == "" && free == "" {
				free = s.RowName(row)
			}
		}
		require.NoError(t, b.types("sockets", "", free, "Holds", output.Name))
		require.Contains(t, b.says("sockets", "", free, "Holds").Text, output.Name)
		require.NoError(t, b.types("sockets", "", free, "Holds", ""))
		require.Empty(t, b.says("sockets", "", free, "Holds").Text)
		require.ErrorContains(t, b.types("sockets", "", free, "Holds", "Kick in"), "no output is")
	})
}

func ownersOf(p *plan.Plan, act plan.ActID) (n int) {
	for row := range p.SocketOwners.All() {
		if row.Act == act {
			n++
		}
	}
	return n
}

func TestOutputsAreTypedActByAct(t *testing.T) {
	b := &booth{t, demo.Weekender()}
	act := b.plan.Acts.At(0).ID
	s := b.look("outputs", "")
	row := s.RowName(0)
	house := b.says("outputs", "", row, "Socket").Text
	require.NotEmpty(t, house)
	require.NoError(t, b.types("outputs", act, row, "Socket", "not used"))
	require.Equal(t, "not used", b.says("outputs", act, row, "Socket").Text)
	chosen, _ := sources.Named("outputs")
	used := chosen.Of(assess.Of(b.plan), sources.View{Act: act, Used: true})
	require.Equal(t, s.Len()-1, used.Len())
	require.Equal(t, "1 house output not used is hidden", used.(table.Sifter).LeftOut())
	require.Empty(t, b.look("outputs", act).(table.Sifter).LeftOut(), "nothing is hidden unasked")
	require.Equal(t, house, b.says("outputs", "", row, "Socket").Text)
	require.NoError(t, b.types("outputs", act, row, "Socket", ""))
	require.Equal(t, house, b.says("outputs", act, row, "Socket").Text)
	require.ErrorContains(t, b.types("outputs", "", row, "Socket", "not used"), "only an act does without")
	require.ErrorContains(t, b.types("outputs", "", row, "From", "Delay"), "is none of")
	require.NoError(t, b.types("outputs", "", row, "Socket", ""))
	require.Empty(t, b.says("outputs", "", row, "Socket").Text)
	require.NoError(t, b.types("outputs", "", row, "From", "FOH"))
	require.NoError(t, b.types("outputs", "", row, "Socket", house))
	require.Equal(t, house, b.says("outputs", "", row, "Socket").Text)
}

func TestGuestsOfAnActAreTyped(t *testing.T) {
	p := demo.Weekender()
	require.Equal(t, "Guest console at FOH drop, tail 3 m of Cat 6A tail 26 AWG", cell(p, "acts", "The Quiet Turbines", "guests"))
	before := p
	p, err := set(t, p, "acts", "Low Tide Brass", "guests", "Guest console at FOH drop", words.Units{})
	require.NoError(t, err)
	require.Equal(t, "Guest console at FOH drop", cell(p, "acts", "Low Tide Brass", "guests"))
	act, _ := patch.Of(p).Act(p.Acts.At(0).ID)
	require.Len(t, act.Guests, 1)
	again, err := set(t, p, "acts", "The Quiet Turbines", "guests", "Guest console at FOH drop, tail 3 m of Cat 6A tail 26 AWG", words.Units{})
	require.NoError(t, err)
	require.True(t, plan.Equal(p, again), "what it says already keeps ports and note")
	for typed, reason := range map[string]string{
		"Guest": "", "Nobody": "is none of", "Guest console at nowhere": "is none of", "Guest console; Guest console": "is named twice",
		"Guest console at FOH drop, tail long": "long", "Guest console at FOH drop, tail 5 m of string": "is none of",
	} {
		_, err := set(t, p, "acts", "Low Tide Brass", "guests", typed, words.Units{})
		if reason == "" {
			require.NoError(t, err)
		} else {
			require.ErrorContains(t, err, reason)
		}
	}
	p, err = set(t, p, "acts", "Low Tide Brass", "guests", "", words.Units{})
	require.NoError(t, err)
	require.True(t, plan.Equal(before, p))
	_, err = set(t, p, "acts", "Low Tide Brass", "order", "soon", words.Units{})
	require.ErrorContains(t, err, "no whole number")
	p, err = set(t, p, "acts", "Low Tide Brass", "order", "3", words.Units{})
	require.NoError(t, err)
	require.Equal(t, "3", cell(p, "acts", "Low Tide Brass", "order"))
	require.Equal(t, "1", cell(p, "acts", "Marigold Static", "order"))
}

func TestTheTableOfSocketsSays48VWhereItStandsAndWhatMustNotHaveIt(t *testing.T) {
	b := &booth{t, demo.Weekender()}
	require.Equal(t, "wanted", b.says("sockets", "", "Splitter in 1", "48 V").Text, "overhead left")
	require.Empty(t, b.says("sockets", "", "Broadcast rack in 1", "48 V").Text, "behind an isolated output")
	next, err := plan.Do(b.plan, nil, func(e *plan.Edit) error {
		for input := range e.Now().Inputs.All() {
			if input.Name == "Overhead left" {
				return plan.Update(e, input.Key(), func(i *plan.Input) { i.Use, i.Phantom = patch.Ribbon, false })
			}
		}
		return nil
	})
	require.NoError(t, err)
	b.plan = next
	cell := b.says("sockets", "", "Splitter in 1", "48 V")
	require.Equal(t, "NO 48 V – ribbon", cell.Text)
	require.Empty(t, b.says("sockets", "", "Broadcast rack in 1", "48 V").Text)
}

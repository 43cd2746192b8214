package sources_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table/sources"
)

// spoiled is the demo with rows of its patch drawn at random: sockets and channels that are taken, that are not there, acts
// that strike, sub-snakes that are none.
func spoiled(t *testing.T, seed uint64) *plan.Plan {
	p, random := demo.Weekender(), rand.New(rand.NewPCG(seed, 5))
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		device := func() plan.DeviceID { return p.Devices.At(random.IntN(p.Devices.Len())).ID }
		act := func() plan.ActID {
			return []plan.ActID{"", p.Acts.At(0).ID, p.Acts.At(1).ID, p.Acts.At(2).ID}[random.IntN(4)]
		}
		consoles := patch.Of(p).Consoles()
		for range 60 {
			input := p.Inputs.At(random.IntN(p.Inputs.Len()))
			plan.Put(e, plan.StagePatch{Act: act(), Input: input.ID, Device: device(), Socket: 1 + random.IntN(20)})
			plan.Put(e, plan.StagePatch{Act: p.Acts.At(1).ID, Input: input.ID, Strike: true})
			plan.Put(e, plan.ConsolePatch{Act: act(), Console: consoles[random.IntN(len(consoles))], Channel: 1 + random.IntN(90), Device: device(), Socket: 1 + random.IntN(30)})
			input.Snake, input.SnakeWay = device(), random.IntN(20)
			plan.Put(e, input)
			output := p.Outputs.At(random.IntN(p.Outputs.Len()))
			plan.Put(e, plan.OutputPatch{Act: act(), Output: output.ID, Console: consoles[random.IntN(len(consoles))], Device: device(), Socket: 1 + random.IntN(20)})
		}
		return nil
	})
	require.NoError(t, err)
	return next
}

// Whatever a cell of the patch shows may be typed there again, and changes nothing.
func TestEveryCellOfThePatchIsTypedBack(t *testing.T) {
	plans := []*plan.Plan{demo.Weekender()}
	for seed := range uint64(4) {
		plans = append(plans, spoiled(t, seed))
	}
	for n, p := range plans {
		a := assess.Of(p)
		for _, act := range a.Patch.Acts {
			for _, sheet := range []string{"patch", "sockets", "outputs"} {
				chosen, found := sources.Named(sheet)
				require.True(t, found)
				s, typed := chosen.Of(a, sources.View{Act: act.Act.ID, Channels: true}), 0
				e := plan.NewEdit(p, plan.NewIDSource(1, 1))
				for column, at := range s.Columns() {
					set := s.Setter(column)
					for row := range s.Len() {
						if set == nil {
							continue
						}
						shown := s.Cell(row, column).Text
						require.NoError(t, set(e, s.Ref(row), shown), "plan %d, %s, %q of %s in %q: %q", n, sheet, at.Title, s.RowName(row), act.Act.Name, shown)
						typed++
					}
				}
				next, err := e.Commit()
				require.NoError(t, err)
				require.True(t, plan.Between(p, next).Empty(), "plan %d, %s in %q", n, sheet, act.Act.Name)
				require.Greater(t, typed, 50)
			}
		}
	}
}

// What the socket column shows of one input is read of another, once it is free.
func TestASocketThatIsShownIsReadOfAnotherInput(t *testing.T) {
	b := &booth{t, demo.Weekender()}
	require.Equal(t, "RF rack out 1", b.says("patch", "", "input 43 Radio voice 1", "Socket").Text)
	require.ErrorContains(t, b.types("patch", "", "input 1 Kick in", "Socket", "RF rack out 1"), "RF rack out 1 holds Radio voice 1 already: unplug that first or choose 3")
	v := patch.Of(b.plan)
	for _, act := range v.Acts {
		for _, line := range act.Lines {
			if line.Patched() {
				socket, err := v.ReadPlug(v.SocketWords(line.At), "")
				require.NoError(t, err)
				require.Equal(t, line.At, socket)
			}
		}
	}
	require.NoError(t, b.types("patch", "", "input 43 Radio voice 1", "Socket", ""))
	require.NoError(t, b.types("patch", "", "input 1 Kick in", "Socket", "RF rack out 1"))
	require.Equal(t, "RF rack out 1", b.says("patch", "", "input 1 Kick in", "Socket").Text)
	require.Equal(t, "1", b.says("patch", "", "input 1 Kick in", "FOH console").Text, "its channel goes along")
	require.Equal(t, "1 Kick in", b.says("sockets", "", "RF rack out 1", "Holds").Text)
	require.NoError(t, b.types("sockets", "", "RF rack out 1", "Holds", ""))
	require.NoError(t, b.types("sockets", "", "RF rack out 1", "Holds", "43 Radio voice 1"))
	require.Equal(t, "RF rack out 1", b.says("patch", "", "input 43 Radio voice 1", "Socket").Text)
}

// A typed socket takes the place of the sub-snake, in every word that is said of the input; clearing the sub-snake clears its
// way; what lies parallel to a socket is told with it.
func TestATypedSocketTakesThePlaceOfTheSubSnake(t *testing.T) {
	b := &booth{t, demo.Weekender()}
	input := func() plan.Input { row, _ := b.plan.Inputs.Get(plan.Key(inputOf(t, b.plan, 25))); return row }
	inputs := func(column, typed string) error {
		next, err := set(t, b.plan, "inputs", "input 25 Organ low", column, typed, words.Units{})
		if err == nil {
			b.plan = next
		}
		return err
	}
	said := func(act plan.ActID) string {
		v := patch.Of(b.plan)
		a, _ := v.Act(act)
		line, _ := a.Line(input().ID)
		return v.Words(line)
	}
	require.Equal(t, "25 Organ low", b.says("sockets", "", "Splitter in 17", "Holds").Text)
	require.Contains(t, b.says("sockets", "", "Splitter in 17", "Goes to").Text, "wired to Horn snake in 1")
	require.ErrorContains(t, b.types("sockets", "", "Splitter in 17", "Holds", ""), "Organ low comes to Splitter in 17 from Horn snake in 1: unplug it there")
	act := b.plan.Acts.At(1).ID
	require.NoError(t, b.types("patch", act, "input 25 Organ low", "Socket", "Stage right box 16"))
	require.Contains(t, said(act), "Organ low → Stage right box in 16")
	require.Contains(t, said(""), "Organ low → Horn snake in 1", "the house has it on the sub-snake")
	require.NoError(t, b.types("patch", "", "input 25 Organ low", "Socket", "Stage right box 15"))
	require.Equal(t, [2]any{plan.DeviceID(""), 0}, [2]any{input().Snake, input().SnakeWay})
	require.Contains(t, said(""), "Organ low → Stage right box in 15")
	require.NoError(t, inputs("snake", "Horn snake"))
	require.NoError(t, inputs("way", "1"))
	require.Contains(t, said(""), "Organ low → Horn snake in 1 → Stage rack in 17 → FOH console 25")
	require.ErrorContains(t, inputs("way", "2"), "Horn snake in 2 holds Organ high already")
	require.NoError(t, inputs("snake", "none"))
	require.Equal(t, [2]any{plan.DeviceID(""), 0}, [2]any{input().Snake, input().SnakeWay})
	require.ErrorContains(t, inputs("way", "2"), "socket 2 of which sub-snake?")
	require.NoError(t, inputs("snake", "Horn snake"))
	require.NoError(t, inputs("way", "1"))
	require.NoError(t, inputs("snake", ""))
	require.Equal(t, [2]any{plan.DeviceID(""), 0}, [2]any{input().Snake, input().SnakeWay}, "a cleared cell leaves no socket behind")
}

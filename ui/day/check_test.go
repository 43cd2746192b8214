package day_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/day"
)

// show is a plan with a box, two consoles, 36 inputs and two acts: the second does without the first input and has its
// second one on the socket of the third.
func show(t testing.TB) (p *plan.Plan, acts []plan.ActID) {
	t.Helper()
	p, err := plan.Do(plan.New("Show"), plan.NewIDSource(9, 9), func(e *plan.Edit) error {
		device := func(name string, kind plan.KindID) plan.DeviceID {
			id := e.AddDevice(plan.Device{Name: name, Kind: kind})
			require.NoError(t, catalogue.Use(e, kind))
			return id
		}
		box, house, monitors := device("SL", "stagebox-40-20"), device("FOH", "console-72"), device("Mon", "console-56")
		e.AddLink(plan.Link{Name: "L01", Transport: "aes50", From: box, FromPort: "AES50 1", To: house, ToPort: "AES50 1"})
		e.AddLink(plan.Link{Name: "L02", Transport: "aes50", From: box, FromPort: "AES50 2", To: monitors, ToPort: "AES50 1"})
		acts = append(acts, e.AddAct(plan.Act{Name: "Brass", Order: 1, CheckStart: "16:20"}), e.AddAct(plan.Act{Name: "Choir", Order: 2, CheckBy: "area"}))
		for number := 1; number <= 36; number++ {
			input := plan.Input{Number: number, Name: fmt.Sprintf("Voice %d", number), Use: "mic", Source: "dynamic vocal", Stand: "tall boom", Riser: []string{"Drums", "", "SR"}[number%3]}
			if number == 12 {
				input = plan.Input{Number: 12, Name: "Kick", Use: "condenser", Source: "boundary plate", Phantom: true, Riser: "Drums", Note: "mind the gate"}
			}
			id := e.AddInput(input)
			plan.Put(e, plan.StagePatch{Input: id, Device: box, Socket: number})
			for _, console := range []plan.DeviceID{house, monitors} {
				plan.Put(e, plan.ConsolePatch{Console: console, Channel: number, Device: box, Socket: number})
			}
			plan.Put(e, plan.SocketOwner{Device: box, Socket: number, Gain: house, Phantom: monitors})
		}
		_, refused := patch.GiveOut(e)
		require.Empty(t, refused)
		first, second := inputNumbered(e.Now(), 1), inputNumbered(e.Now(), 2)
		require.NoError(t, patch.Strike(e, acts[1], first, inputNumbered(e.Now(), 3)))
		plan.Put(e, plan.StagePatch{Act: acts[1], Input: second, Device: box, Socket: 3})
		return nil
	})
	require.NoError(t, err)
	return p, acts
}

func inputNumbered(p *plan.Plan, number int) plan.InputID {
	for input := range p.Inputs.All() {
		if input.Number == number {
			return input.ID
		}
	}
	return ""
}

// clock is a clock that goes on by so many seconds with each look at it.
type clock struct {
	at   time.Time
	each time.Duration
}

func (c *clock) now() time.Time {
	c.at = c.at.Add(c.each)
	return c.at
}

var afternoon = time.Date(2027, 6, 18, 16, 20, 0, 0, time.FixedZone("", 2*60*60))

// onCheck is a view in the line check of an act, with a clock that stands.
func onCheck(t *testing.T, p *plan.Plan, act plan.ActID) (*field, *clock) {
	t.Helper()
	f := onField(t, p, words.Units{})
	c := &clock{at: afternoon}
	f.Now, f.ActShown = c.now, func() plan.ActID { return act }
	f.typed("c")
	return f, c
}

func (f *field) called() string {
	_, id, _ := f.Checking()
	input, _ := f.desk.Plan().Inputs.Get(plan.Key(id))
	return fmt.Sprintf("%d %s", input.Number, input.Name)
}

func TestALineCheckOf36InputsByKey(t *testing.T) {
	p, acts := show(t)
	f, c := onCheck(t, p, acts[0])
	require.Equal(t, "1 Voice 1", f.called())
	require.True(t, f.sees("planned 16:20:00 · 1 of 36"), f.texts())
	for number := 1; number <= 36; number++ {
		require.True(t, f.sees(fmt.Sprintf("%d of 36", number)))
		switch number {
		case 3:
			f.typed("d")
		case 12:
			f.typed("n")
			f.typed("t")
			f.typed("crackles on W and D")
			f.press(fyne.KeyBackspace)
			f.typed("D")
			f.press(fyne.KeyEnter)
		case 20:
			f.typed("W")
		case 30:
			f.press(fyne.KeyRight)
		case 31:
			f.typed("o")
		default:
			f.press(fyne.KeyReturn)
		}
		c.at = c.at.Add(20 * time.Second)
	}
	require.Equal(t, "36 Voice 36: OK 16:31. That was the last input: 32 of 36 OK, 3 faults open, 1 not yet heard.", f.Said())
	require.Equal(t, 36, f.steps(), "35 results and a note, one step each")
	kick, _ := f.desk.Plan().Checked(acts[0], inputNumbered(p, 12))
	require.Equal(t, plan.LineCheck{Act: acts[0], Input: inputNumbered(p, 12), At: "2027-06-18T16:23:40+02:00", Result: plan.Noisy, Note: "crackles on W and D", Chain: "SL in 12 → FOH 12, Mon 12"}, kick)
	require.Equal(t, "Line check: 36 Voice 36 OK", f.desk.NextUndo())
	f.typed("u")
	require.Equal(t, "Taken back: Line check: 36 Voice 36 OK.", f.Said())
	require.Equal(t, "36 Voice 36", f.called(), "it shows what was taken back")
	require.True(t, f.sees("31 of 36 OK, 3 faults open, 2 not yet heard"))

	f.typed("f")
	require.True(t, f.sees("3 Voice 3 DEAD since 16:20, 11 min · Brass"), f.texts())
	require.True(t, f.sees("12 Kick NOISY since 16:23, 8 min · Brass"))
	require.True(t, f.sees("crackles on W and D"))
	f.press(fyne.KeyDown)
	f.typed("c")
	require.Contains(t, f.Said(), "12 Kick: cleared 16:32.")
	require.True(t, f.sees("12 Kick NOISY 16:23, cleared 16:32 · Brass"))
	require.True(t, f.sees("2 open, 1 cleared"))
	f.press(fyne.KeyDown)
	f.typed("c")
	require.Contains(t, f.Said(), "already")
	f.press(fyne.KeyEnter)
	require.Equal(t, "12 Kick", f.called(), "Enter goes there")
	require.True(t, f.sees("hear it again: crackles on W and D"), f.texts())
	f.typed("O")
	require.True(t, f.sees("32 of 36 OK, 2 faults open, 2 not yet heard"), f.texts())
	f.press(fyne.KeyEscape)
	require.Equal(t, 1, f.left)
}

func TestAFaultIsToldInTheNextAct(t *testing.T) {
	p, acts := show(t)
	f, _ := onCheck(t, p, acts[0])
	f.press(fyne.KeyRight, fyne.KeyDown)
	f.typed("d")
	require.Equal(t, "4 Voice 4", f.called())
	f.press(fyne.KeyPageDown)
	act, _, _ := f.Checking()
	require.Equal(t, acts[1], act)
	require.Equal(t, "2 Voice 2", f.called(), "by area: the riser that comes first by number")
	require.True(t, f.sees("0 of 34 OK"), f.texts())
	f.BeginCheck(acts[1], inputNumbered(p, 2))
	require.True(t, f.sees("socket SL in 3 was dead in Brass at 16:20, not cleared (Voice 3)"), f.texts())
	f.typed("o")
	f.press(fyne.KeyBackspace)
	require.Equal(t, "2 Voice 2", f.called())
	require.True(t, f.sees("not cleared (Voice 3)"), "OK in another act clears nothing by itself")
	f.typed("c")
	require.False(t, f.sees("not cleared (Voice 3)"))
	require.True(t, f.sees("OK 16:20"))
	require.True(t, f.Command(&desktop.CustomShortcut{KeyName: fyne.KeyPageUp, Modifier: fyne.KeyModifierShortcutDefault}))
	act, _, _ = f.Checking()
	require.Equal(t, acts[0], act)
	f.typed("c")
	require.Equal(t, "There is no open fault here.", f.Said())
	f.press(fyne.KeyPageUp)
	require.True(t, f.sees("House · 1 of 36"), f.texts())
	f.press(fyne.KeyPageDown)
	f.typed("l")
	_, _, checking := f.Checking()
	require.False(t, checking)
	require.Equal(t, "L01", f.shown().Name)
	require.True(t, f.sees("0 of 2 laid, 0 joined, 0 tested · line check 0 of 36 OK"), "the head of the links tells of a line check: %q", f.texts())
}

func TestALongNameOfAnActGivesWay(t *testing.T) {
	p, acts := hardCheck(t)
	f, _ := onCheck(t, p, acts[1])
	f.BeginCheck(acts[1], inputNumbered(p, 36))
	require.True(t, f.sees("0 of 34 OK, 3 faults open, 31 not yet heard"), f.texts())
	require.True(t, f.sees("… · planned "), f.texts())
	require.True(t, f.sees(" of 34\n"), f.texts())
}

func TestResultsWithinOneSecondAndRepeats(t *testing.T) {
	p, acts := show(t)
	f, _ := onCheck(t, p, acts[0])
	for _, key := range []string{"d", "n", "w", "o"} {
		f.typed(key)
		f.press(fyne.KeyLeft)
		require.Equal(t, "1 Voice 1", f.called())
	}
	rows := f.desk.Plan().ChecksOf(acts[0], inputNumbered(p, 1))
	require.Len(t, rows, 4)
	for i, row := range rows {
		require.Equal(t, fmt.Sprintf("2027-06-18T16:20:%02d+02:00", i), row.At)
		require.False(t, row.Fault(), "OK cleared what was open")
	}
	f.press(fyne.KeyLeft)
	require.Equal(t, "This is the first input of this line check.", f.Said())
	f.press(fyne.KeyRight)
	f.typed("t")
	require.Contains(t, f.Said(), "Nothing was heard of 2 Voice 2 yet")
}

func TestTheLineCheckByTapping(t *testing.T) {
	p, acts := show(t)
	f, _ := onCheck(t, p, acts[0])
	f.tap("NOISY")
	f.tap("Note")
	f.typed("hum")
	f.tap("Keep the note")
	f.tap("Skip")
	f.tap("Back")
	f.tap("Back")
	require.True(t, f.sees("✓ NOISY"))
	require.True(t, f.sees("since 16:20, 0 min: hum"), f.texts())
	f.tap("Cleared")
	f.tap("Undo")
	f.tap("Faults")
	f.tap("Cleared")
	require.True(t, f.sees("0 open, 1 cleared"))
	f.tap("Back")
	f.tap("OK")
	require.Equal(t, "2 Voice 2", f.called())
	f.tap("Links")
	f.tap("Line check")
	require.Equal(t, "2 Voice 2", f.called(), "it comes back to where it was")
	f.tap("Plan")
	require.Equal(t, 1, f.left)
}

func TestALineCheckWithoutAnything(t *testing.T) {
	f, _ := onCheck(t, plan.New("x"), "")
	require.True(t, f.sees("This plan has no input yet."), f.texts())
	f.typed("odnwtcuf")
	f.press(fyne.KeyUp, fyne.KeyDown, fyne.KeyReturn, fyne.KeyBackspace, fyne.KeyPageDown)
	require.Zero(t, f.steps())
	p, acts := show(t)
	none := edited(t, p, func(e *plan.Edit) error {
		for input := range p.Inputs.All() {
			require.NoError(t, patch.Strike(e, acts[0], input.ID))
		}
		return nil
	})
	f, _ = onCheck(t, none, acts[0])
	require.True(t, f.sees("No input is used here."), f.texts())
	f.typed("odnw")
	require.Zero(t, f.steps())
	f.press(fyne.KeyPageDown)
	require.NotEqual(t, "0 ", f.called())
}

// hardCheck has all that is hard to show of one input: names in other scripts and without end, no socket, notes, faults.
func hardCheck(t testing.TB) (*plan.Plan, []plan.ActID) {
	p, acts := show(t)
	return edited(t, p, func(e *plan.Edit) error {
		long := func(text string) string { return string([]rune(strings.Repeat(text, 200))[:200]) }
		for number, name := range map[int]string{12: long("Gran cassa "), 13: long("Ω"), 14: long("Длинное имя 舞台左側 ")} {
			require.NoError(t, plan.Update(e, plan.Key(inputNumbered(p, number)), func(i *plan.Input) {
				i.Name, i.Source, i.Stand, i.Riser, i.Note = name, name, name, name, name
				i.RFChannel, i.Frequency, i.Transmitter = "R7", 518.125, name
			}))
			if _, err := e.SetLineCheck(plan.LineCheck{Act: acts[1], Input: inputNumbered(p, number), At: "2027-06-17T23:59:00+02:00", Result: plan.Dead, Note: name}); err != nil {
				return err
			}
		}
		plan.Drop[plan.StagePatch](e, plan.StagePatch{Input: inputNumbered(p, 14)}.Key())
		for row := range p.ConsolePatches.All() {
			if row.Channel == 15 {
				plan.Drop[plan.ConsolePatch](e, row.Key())
			}
		}
		return plan.Update(e, plan.Key(acts[1]), func(a *plan.Act) { a.Name, a.CheckStart = long("Posaunenchor "), "23:59" })
	}), acts
}

func TestThePageOfAnInput(t *testing.T) {
	p, acts := hardCheck(t)
	p = edited(t, p, func(e *plan.Edit) error {
		_, err := e.SetLineCheck(plan.LineCheck{Act: acts[0], Input: inputNumbered(p, 3), At: "2027-06-18T16:31:00+02:00", Result: plan.Dead})
		return err
	})
	a := assess.Of(p)
	for name, at := range map[string]struct {
		act    plan.ActID
		number int
	}{
		"plain": {acts[0], 1}, "dead": {acts[0], 3}, "socket": {acts[1], 2}, "long": {acts[1], 12}, "no-socket": {"", 14}, "no-console": {"", 15},
	} {
		t.Run(name, func(t *testing.T) {
			act, _ := a.Patch.Act(at.act)
			turns := a.Patch.LineCheck(act)
			for _, turn := range turns {
				if turn.Line.Input.Number == at.number {
					golden(t, "check-"+name, day.CheckPageOf(a, act, turn, len(turns), afternoon.Add(23*time.Minute)).Text())
					return
				}
			}
			require.Fail(t, "no such turn")
		})
	}
}

func TestNothingOfALineCheckLiesOnSomethingElse(t *testing.T) {
	if testing.Short() {
		t.Skip("drawn by one goroutine alone")
	}
	for name, size := range map[string]fyne.Size{
		"usual": fyne.NewSize(1280, 772), "small": fyne.NewSize(1024, 580), "large": fyne.NewSize(1920, 1050), "upright": fyne.NewSize(800, 1200),
		"flat": fyne.NewSize(1600, 500), "tiny": fyne.NewSize(240, 160), "twice": fyne.NewSize(2560, 1544),
	} {
		t.Run(name, func(t *testing.T) {
			p, acts := hardCheck(t)
			f, _ := onCheck(t, p, acts[1])
			f.window.Resize(size)
			for _, act := range append(acts, "") {
				for _, number := range []int{2, 12, 13, 14, 15, 36} {
					f.BeginCheck(act, inputNumbered(p, number))
					for _, keys := range []string{"", "n", "t", "f"} {
						f.typed(keys)
						require.Empty(t, f.crowding(size), "%d after %q", number, keys)
						if keys != "n" && keys != "" {
							f.press(fyne.KeyEscape)
						}
					}
				}
			}
		})
	}
}

package report_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/report"
)

// printedSocket is a row of a sheet of a box as another program reads it.
type printedSocket struct {
	box, act, direction string
	number              int
}

var socketStart = regexp.MustCompile(`^(in|out) (\d+)(?: (.*))?$`)

// socketsOf reads the sheets of boxes of one act: what stands behind each socket, lines of a cell joined.
func socketsOf(t *testing.T, a *assess.Assessment, act *patch.Act) map[printedSocket]string {
	t.Helper()
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters, choice.Act = []report.Chapter{report.BoxPatch}, act.Act.ID
	document, _ := write(t, a, choice)
	read, box, last := map[printedSocket]string{}, "", printedSocket{}
	for _, page := range pagesOf(t, document) {
		last = printedSocket{}
		for _, line := range strings.Split(strip.ReplaceAllString(page, ""), "\n") {
			title := strings.TrimSuffix(strings.TrimSuffix(line, ", continued"), ": outputs")
			if name, found := strings.CutSuffix(title, ", "+act.Act.Name); found {
				box, last = name, printedSocket{}
				continue
			}
			found := socketStart.FindStringSubmatch(line)
			if found != nil {
				last = printedSocket{box, act.Act.Name, found[1], 0}
				_, err := fmt.Sscan(found[2], &last.number)
				require.NoError(t, err)
				require.NotContains(t, read, last, "a socket is told once")
				read[last] = found[3]
			} else if last.number > 0 && line != "" && !strings.Contains(line, " free") {
				read[last] += " " + line
			}
		}
	}
	return read
}

func printedOf(view *patch.View, act *patch.Act, s patch.Socket) printedSocket {
	direction := "in"
	if s.Output {
		direction = "out"
	}
	return printedSocket{view.Name(s.Device), act.Act.Name, direction, s.Number}
}

// channelNumbers are what stands in the columns of the consoles for some channels.
func channelNumbers(view *patch.View, channels []patch.Channel) string {
	channels = slices.Clone(channels)
	slices.SortStableFunc(channels, func(a, b patch.Channel) int { return words.Natural(view.Name(a.Console), view.Name(b.Console)) })
	said, last := []string{}, plan.DeviceID("")
	for _, channel := range channels {
		number := fmt.Sprint(channel.Number)
		if !channel.Reached {
			number += " not reached"
		}
		if channel.Console == last {
			said[len(said)-1] += ", " + number
		} else {
			said = append(said, number)
		}
		last = channel.Console
	}
	return strings.Join(said, " ")
}

// scattered plugs inputs of a festival here and there, act by act.
func scattered(t *testing.T, p *plan.Plan, seed uint64) *plan.Plan {
	random := rand.New(rand.NewPCG(seed, 0xB0))
	for range 60 {
		view := patch.Of(p)
		boxes := view.WithSockets(false)
		box, act := boxes[random.IntN(len(boxes))], view.Acts[random.IntN(len(view.Acts))]
		line := act.Lines[random.IntN(len(act.Lines))]
		to := patch.Socket{Device: box, Number: 1 + random.IntN(max(1, view.Sockets(box, false)))}
		after, err := plan.Do(p, nil, func(e *plan.Edit) error { return patch.Plug(e, act.Act.ID, line.Input.ID, to, true) })
		if err == nil { // what collides is refused
			p = after
		}
	}
	return p
}

// An independent follower reads the printed sheets and compares them with the patch: every input is plugged in at exactly one
// place, what a multicore brings says so with its way, and channels and sockets are those of the patch.
func TestTheSheetsOfBoxesSendNobodyToAWrongSocket(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"demo": demo.Weekender(), "scattered": scattered(t, demo.Weekender(), 3)} {
		t.Run(name, func(t *testing.T) {
			a := assess.Of(p)
			for _, act := range a.Patch.Acts[1:] {
				read := socketsOf(t, a, act)
				for _, line := range act.Lines {
					followed(t, a.Patch, act, line, read)
				}
				for device := range a.Patch.ByName() {
					for _, row := range a.Patch.Box(act, device) {
						for _, output := range row.Outputs {
							require.Contains(t, read[printedOf(a.Patch, act, row.Socket)], fmt.Sprintf("%d %s from %s", output.Output.Number, output.Output.Name, a.Patch.Name(output.Console)))
						}
					}
				}
			}
		})
	}
}

func followed(t *testing.T, view *patch.View, act *patch.Act, line *patch.Line, read map[printedSocket]string) {
	t.Helper()
	name := fmt.Sprintf("%d %s ", line.Input.Number, line.Input.Name)
	starts := func(words string) bool { return strings.HasPrefix(strings.TrimPrefix(words, "no "), name) }
	here := 0
	for _, words := range read {
		if starts(words) && !strings.Contains(words, "do not plug") {
			require.NotContains(t, words, "DOUBLE")
			here++
		}
	}
	if !line.Patched() {
		require.Zero(t, here, "%s in %s", name, act.Act.Name)
		return
	}
	require.Equal(t, 1, here, "%s in %s is plugged in at one place", name, act.Act.Name)
	at := line.At
	if !line.Snake.None() {
		at = line.Snake
	}
	require.True(t, starts(read[printedOf(view, act, at)]), "%s in %s at %s: %q", name, act.Act.Name, view.SocketWords(at), read[printedOf(view, act, at)])
	require.True(t, strings.HasSuffix(read[printedOf(view, act, at)], channelNumbers(view, line.Channels())), read[printedOf(view, act, at)])
	for _, leg := range line.Legs {
		if leg.Socket == at {
			continue
		}
		words := read[printedOf(view, act, leg.Socket)]
		last := leg.Ways[len(leg.Ways)-1]
		link, _ := view.Plan.Link(last.Link)
		require.True(t, strings.HasPrefix(words, "no "+name), words)
		require.Contains(t, words, fmt.Sprintf("by multi %s %s, way %d: do not plug", link.Name, link.Colour, last.Number))
		require.True(t, strings.HasSuffix(words, channelNumbers(view, leg.Channels)), words)
	}
}

// named finds a device of a plan.
func named(t *testing.T, p *plan.Plan, name string) plan.DeviceID {
	t.Helper()
	for device := range p.Devices.All() {
		if device.Name == name {
			return device.ID
		}
	}
	t.Fatalf("no device %s", name)
	return ""
}

func TestAMultiIsToldWithItsColour(t *testing.T) {
	p, err := plan.Do(demo.Weekender(), nil, func(e *plan.Edit) error {
		snake := named(t, e.Now(), "Horn snake")
		for link := range e.Now().Links.All() {
			if link.From == snake {
				link.Colour = "blue"
				plan.Put(e, link)
			}
		}
		return nil
	})
	require.NoError(t, err)
	text := strings.Join(strings.Fields(chapterOf(t, assess.Of(p), report.BoxPatch)), " ")
	require.Regexp(t, `in 19 no 27 Trumpet by multi L\d+ blue, way 3: do not plug`, text)
	require.Regexp(t, `in 3 27 Trumpet dynamic, tall boom, horns, on by multi L\d+ blue, way 3`, text, "the sub-snake is where it is plugged in")
	lists := strings.Join(strings.Fields(chapterOf(t, assess.Of(p), report.PatchLists)), " ")
	require.Regexp(t, `27 Trumpet dynamic, tall boom, horns Horn snake in 3 L\d+ blue 3, L\d+ yellow 3`, lists)
	require.NotContains(t, chapterOf(t, assess.Of(bands(t, 12)), report.PatchLists), "Multi", "no input runs over one")
}

// The outputs of receivers that lie parallel to a socket are no destination.
func TestNobodyPlugsIntoTheOutputsOfAReceiver(t *testing.T) {
	p, err := plan.Do(demo.Weekender(), nil, func(e *plan.Edit) error {
		rack, splitter := named(t, e.Now(), "RF rack"), named(t, e.Now(), "Splitter")
		for link := range e.Now().Links.All() {
			if link.From == rack && link.FromPort == "M" {
				link.To, link.ToPort = splitter, "IN3"
				plan.Put(e, link)
			}
		}
		for input := range e.Now().Inputs.All() {
			if input.Name == "Kick in" {
				plan.Put(e, plan.StagePatch{Input: input.ID, Device: splitter, Socket: 35})
			}
		}
		return nil
	})
	require.NoError(t, err)
	a := assess.Of(p)
	choice := report.ChoiceOf(p, day)
	choice.Chapters, choice.Device = []report.Chapter{report.BoxPatch}, named(t, p, "RF rack")
	document, _ := write(t, a, choice)
	sheet := strings.Join(strings.Fields(strings.Join(pagesOf(t, document), " ")), " ")
	require.Regexp(t, `out 3 no 1 Kick in by multi L16 violet, way 3: do not plug`, sheet)
	for _, chapter := range []report.Chapter{report.ActChanges, report.PatchLists, report.LineCheck} {
		text := strings.Join(strings.Fields(chapterOf(t, a, chapter)), " ")
		require.NotContains(t, section(text, "1 Kick in", "2 Kick out", "9 Overhead"), "RF rack", chapter)
	}
}

// One act at one box with all that can be told of a socket is one sheet, of 32 sockets too.
func TestOneActAtOneBoxIsOneSheet(t *testing.T) {
	p, err := plan.Do(bands(t, 32), nil, func(e *plan.Edit) error {
		box := named(t, e.Now(), "Stage left")
		for input := range e.Now().Inputs.All() {
			input.Phantom, input.Use, input.Riser, input.Source = input.Number%2 == 0, "condenser", "drums", ""
			plan.Put(e, input)
			plan.Put(e, plan.SocketOwner{Device: box, Socket: input.Number, Phantom: named(t, e.Now(), "FOH"), Gain: named(t, e.Now(), "FOH")})
			plan.Put(e, plan.SocketName{Device: box, Direction: "in", Socket: input.Number, Name: fmt.Sprintf("T%d", input.Number)})
		}
		return nil
	})
	require.NoError(t, err)
	for size, pages := range map[string]int{"A4": 1, "A3": 1} {
		choice := report.ChoiceOf(p, day)
		choice.Paper, choice.Chapters, choice.Act, choice.Device = size, []report.Chapter{report.BoxPatch}, "n-33333", named(t, p, "Stage left")
		document, done := write(t, assess.Of(p), choice)
		require.Equal(t, pages, done.Pages, size)
		text := strings.Join(strings.Fields(strings.Join(pagesOf(t, document), " ")), " ")
		require.Contains(t, text, "48 V by FOH")
		require.Contains(t, text, "in 4 T4 4 Voice 4 condenser, tall boom, drums 48 V 4 4")
		require.Contains(t, text, "in 31 T31 31 Voice 31 condenser, tall boom, drums 31")
	}
}

func TestAPackOfOneBoxSaysSo(t *testing.T) {
	p := wings(t)
	choice := report.ChoiceOf(p, day)
	choice.Packs, choice.Act, choice.Device = []report.Pack{report.Patch}, "n-33333", named(t, p, "Monitors")
	document, done := write(t, assess.Of(p), choice)
	read := readPrint(t, document, done)
	require.Contains(t, read["Patch pack"], "Patch of act Last band only. Only what ends at Monitors: 1 link.")
	require.NotContains(t, read["Patch: Patch by channel"], "FOH")
	require.Contains(t, read["Patch: Line check"], "Voice 4 ")
	require.NotContains(t, read["Patch: Line check"], "Voice 5 ", "monitors do not get it")
	choice.Device = named(t, p, "Stage left")
	document, done = write(t, assess.Of(p), choice)
	require.NotContains(t, readPrint(t, document, done)["Patch pack"], "Patch by channel", "a box is no console")
	choice.Device = "n-99999"
	_, err := report.Write(t.Context(), &strings.Builder{}, assess.Of(p), choice)
	require.ErrorContains(t, err, "is not in the plan")
}

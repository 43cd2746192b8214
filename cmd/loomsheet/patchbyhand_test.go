package main_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	loomsheet "stageloom/cmd/loomsheet"
	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/patch/patchtest"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

var channelLine = regexp.MustCompile(`^ {2,6}(\d+)  (.*)$`)

// printedChannels reads what `loomsheet patch --by console` prints of an act: by console and channel, what it gets.
func printedChannels(t *testing.T, path, act string) map[string]map[int]string {
	t.Helper()
	var out, trouble bytes.Buffer
	require.Zero(t, loomsheet.Run([]string{"patch", path, "--by", "console", "--act", act}, &out, &trouble), trouble.String())
	printed, console, number := map[string]map[int]string{}, "", 0
	for _, line := range strings.Split(out.String(), "\n")[3:] {
		switch found := channelLine.FindStringSubmatch(line); {
		case found != nil:
			number, _ = strconv.Atoi(found[1])
			printed[console][number] = found[2]
		case strings.HasPrefix(line, "        "):
			printed[console][number] += " " + strings.TrimSpace(line)
		case line != "":
			console = line
			printed[console] = map[int]string{}
		}
	}
	return printed
}

// The command says of every channel of every act what who reads the rows by hand finds there; after a box died too.
func TestThePatchIsPrintedAsItIsReadByHand(t *testing.T) {
	whole := demo.Weekender()
	moved, err := plan.Do(whole, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		for device := range e.Now().Devices.All() {
			if device.Name == "Riser box" {
				_, err := patch.MoveOff(e, device.ID)
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	for _, p := range []*plan.Plan{whole, moved} {
		var file bytes.Buffer
		require.NoError(t, planfile.Write(&file, p))
		path := filepath.Join(t.TempDir(), "plan.stageloom")
		require.NoError(t, os.WriteFile(path, file.Bytes(), 0o600))
		wires, heard := patchtest.Wires{}, 0
		for _, act := range patch.Of(p).Acts {
			name := act.Act.Name
			if act.House() {
				name = "House"
			}
			printed := printedChannels(t, path, name)
			byHand := wires.Read(p, act.Act.ID)
			for at := range byHand.Hear {
				console, _ := p.Device(at.Console)
				input, found := p.Inputs.Get(plan.Key(patchtest.First(byHand.Has[at])))
				want := "nothing from "
				if found {
					want = input.Name
					heard++
				}
				said, stands := printed[console.Name][at.Number]
				if !stands && act.Act.ID != "" {
					continue // a guest that is not there in this act
				}
				require.True(t, strings.HasPrefix(said, want), "%s, %s %d: %q by hand, printed %q", name, console.Name, at.Number, want, said)
				delete(printed[console.Name], at.Number)
			}
			for console, rest := range printed {
				require.Empty(t, rest, "%s, %s: printed, and not there by hand", name, console)
			}
		}
		require.Greater(t, heard, 300)
	}
}

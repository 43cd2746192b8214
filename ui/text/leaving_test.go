package text_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

func deviceRef(p *plan.Plan, name string) plan.Ref {
	for device := range p.Devices.All() {
		if device.Name == name {
			return plan.RefOf(device)
		}
	}
	return plan.Ref{}
}

func leaving(t *testing.T, p *plan.Plan, refs ...plan.Ref) text.Leaving {
	t.Helper()
	l, err := text.LeavingOf(p, refs)
	require.NoError(t, err)
	return l
}

func TestWhatADeletionTakesAlong(t *testing.T) {
	p := demo.Weekender()
	console := deviceRef(p, "FOH console")
	links := p.LinksAt(plan.DeviceID(console.Key))
	cables := 0
	for _, id := range links {
		cables += len(p.SegmentsOf(id))
	}
	t.Run("a device takes its links, frees their cables and unplugs the patch", func(t *testing.T) {
		patched, err := plan.Do(p, plan.NewIDSource(1, 2), func(e *plan.Edit) error {
			for row := range p.ConsolePatches.All() {
				plan.Drop[plan.ConsolePatch](e, row.Key())
			}
			for row := range p.StagePatches.All() {
				plan.Drop[plan.StagePatch](e, row.Key())
			}
			for row := range p.SlotPatches.All() {
				plan.Drop[plan.SlotPatch](e, row.Key())
			}
			for row := range p.OutputPatches.All() {
				plan.Drop[plan.OutputPatch](e, row.Key())
			}
			for channel := range 12 {
				plan.Put(e, plan.ConsolePatch{Console: plan.DeviceID(console.Key), Channel: channel + 1, Device: plan.DeviceID(console.Key), Socket: 1})
			}
			return nil
		})
		require.NoError(t, err)
		l := leaving(t, patched, console)
		require.True(t, l.Asks)
		require.Contains(t, l.Along[0], fmt.Sprintf("%d links: L01, ", len(links)))
		require.Contains(t, l.Along[1], "cables freed: ")
		require.Contains(t, l.Along, "12 patch rows")
		require.Contains(t, l.Sentence(), fmt.Sprintf("FOH console goes, with %d links, %d cables freed, 12 patch rows", len(links), cables))
	})
	t.Run("what the patch loses is told by name, act by act", func(t *testing.T) {
		l := leaving(t, p, console)
		said := strings.Join(l.Along, "\n")
		require.Contains(t, said, "patched signals: ")
		require.Contains(t, said, "Kick in no longer gets to FOH console 1")
		require.Contains(t, said, "; and ")
	})
	t.Run("one link with nothing else goes at once", func(t *testing.T) {
		l := leaving(t, p, linkNamed(p, "L20"))
		require.False(t, l.Asks)
		require.Equal(t, "L20", l.What)
	})
	t.Run("a position leaves its devices where they are", func(t *testing.T) {
		for position := range p.Positions.All() {
			if position.Name == "FOH tower" {
				l := leaving(t, p, plan.RefOf(position))
				require.True(t, l.Asks)
				require.Empty(t, l.Along)
				require.Contains(t, l.Sentence(), "FOH tower goes; ")
				require.Contains(t, l.Sentence(), "where they stand")
			}
		}
	})
	t.Run("a loom leaves its links, and goes with the last of them", func(t *testing.T) {
		var loom plan.LoomID
		with, err := plan.Do(p, plan.NewIDSource(1, 2), func(e *plan.Edit) (err error) {
			loom, err = e.MakeLoom("Snake run", []plan.LinkID{links[0], links[1]})
			return err
		})
		require.NoError(t, err)
		l := leaving(t, with, plan.Ref{Table: "looms", Key: plan.Key(loom)})
		require.Contains(t, l.Sentence(), "Snake run goes; 2 links stay, with their ways")
		require.Contains(t, leaving(t, with, console).Along, "1 loom: Snake run")
		l = leaving(t, with, plan.Ref{Table: "links", Key: plan.Key(links[0])})
		require.NotContains(t, l.Sentence(), "loom")
	})
}

func TestALongListOfWhatADeletionTakesAlongIsCutShort(t *testing.T) {
	p := demo.Weekender()
	var all []plan.Ref
	for device := range p.Devices.All() {
		all = append(all, plan.RefOf(device))
	}
	l := leaving(t, p, all...)
	require.Contains(t, l.Along[0], " more")
	require.Contains(t, l.What, "things")
}

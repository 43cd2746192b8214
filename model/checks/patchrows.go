package checks

import (
	"fmt"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// fewNamed is how many things of the patch a finding names before it counts the rest.
const fewNamed = 3

func slotsOver(s *Subject) (found []Finding) {
	lost := s.deadBy(patch.SlotOver)
	for _, load := range s.Patch.Loads() {
		if !load.Over() {
			continue
		}
		link, _ := s.Plan.Link(load.Link)
		way := map[string]string{patch.Forward: "out", patch.Return: "back"}[load.Direction]
		without := lost[patch.Spot{Cause: patch.SlotOver, Link: load.Link, Direction: load.Direction, Limit: load.Capacity, Rate: load.Rate}]
		finding := Finding{
			Severity: Stop, Where: at(&link),
			What: fmt.Sprintf("%s carries %d channels each way at %s, and %d are assigned going %s, up to channel %d%s",
				link.Name, load.Capacity, patch.KHz(load.Rate), load.Used, way, load.Highest, without.words()),
			Remedy: "Take some of them over another link, or run at a lower sample rate.",
		}
		if without != nil {
			finding.Where = append(finding.Where, without.where...)
		}
		if load.Closed {
			finding.What = fmt.Sprintf("%s carries one way only, and %d channels are assigned against it", link.Name, load.Used)
			finding.Remedy = "Lay a second link for what goes back."
		}
		found = append(found, finding)
	}
	return found
}

func pairCrossed(s *Subject) (found []Finding) {
	for _, pair := range s.Patch.Pairs() {
		if !pair.Apart && !pair.Crossed {
			continue
		}
		main, _ := s.Plan.Link(pair.Main)
		backup, _ := s.Plan.Link(pair.Backup)
		finding := Finding{
			Severity: Stop, Where: and(at(&main), plan.LinksTable, backup.Key()),
			What:   fmt.Sprintf("%s and its backup %s do not join the same two devices", main.Name, backup.Name),
			Remedy: "Plug both between the same two, or part them as a pair.",
		}
		if pair.Crossed {
			finding.Severity = Warn
			finding.What = fmt.Sprintf("%s and its backup %s are crossed: %s to %s beside %s to %s", main.Name, backup.Name, main.FromPort, main.ToPort, backup.FromPort, backup.ToPort)
			finding.Remedy = "Plug main into main and backup into backup at both ends; crossed, neither takes over from the other."
		}
		found = append(found, finding)
	}
	return found
}

// noSocket finds rows of the patch that name sockets which their device has not, told once a device. What channels name is
// told at the channel.
func noSocket(s *Subject) (found []Finding) {
	missing := map[plan.DeviceID][]string{}
	var order []plan.DeviceID
	seen := map[patch.Socket]bool{}
	note := func(socket patch.Socket) {
		if socket.None() || socket.Number == 0 || seen[socket] || s.Patch.Exists(socket) {
			return
		}
		seen[socket] = true
		if missing[socket.Device] == nil {
			order = append(order, socket.Device)
		}
		missing[socket.Device] = append(missing[socket.Device], s.Patch.SocketWords(socket))
	}
	for row := range s.Plan.StagePatches.All() {
		note(patch.Socket{Device: row.Device, Number: row.Socket})
	}
	for row := range s.Plan.SlotPatches.All() {
		note(patch.Socket{Device: row.Device, Number: row.Socket, Output: row.Output})
	}
	for row := range s.Plan.SocketOwners.All() {
		note(patch.Socket{Device: row.Device, Number: row.Socket})
	}
	for row := range s.Plan.Inputs.All() {
		note(s.Patch.Snake(row))
	}
	for row := range s.Plan.OutputPatches.All() {
		note(patch.Socket{Device: row.Device, Number: row.Socket, Output: true})
	}
	for _, id := range order {
		device := s.device(id)
		found = append(found, Finding{
			Severity: Stop, Where: []Place{{plan.DevicesTable, device.Key()}},
			What:   fmt.Sprintf("%s has no such sockets, and the patch uses them: %s", device.Name, words.And(missing[id], fewNamed)),
			Remedy: "Move what is patched there to sockets that are there, or take a larger box.",
		})
	}
	return found
}

// cableTwice finds one tag on two reels that both lie in links: one cable entered twice.
func cableTwice(s *Subject) (found []Finding) {
	used := map[plan.ReelID]plan.LinkID{}
	for segment := range s.Plan.Segments.All() {
		if segment.Reel != "" {
			used[segment.Reel] = segment.Link
		}
	}
	first := map[string]plan.Reel{}
	for reel := range s.Plan.Reels.All() {
		if used[reel.ID] == "" || reel.Tag == "" {
			continue
		}
		other, twice := first[plan.Folded(reel.Tag)]
		if !twice {
			first[plan.Folded(reel.Tag)] = reel
			continue
		}
		one, _ := s.Plan.Link(used[other.ID])
		two, _ := s.Plan.Link(used[reel.ID])
		found = append(found, Finding{
			Severity: Stop, Where: and(and(at(&one), plan.LinksTable, two.Key()), plan.ReelsTable, reel.Key()),
			What:   fmt.Sprintf("%s is used twice: two cables bear this tag, in %s and %s", reelName(reel), one.Name, two.Name),
			Remedy: "If it is one cable, take another for one of them; if there are two, give each its own tag.",
		})
	}
	return found
}

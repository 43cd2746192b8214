package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// channelless tells that nothing is patched, or that the box that is chosen is no console.
func (p *printout) channelless() bool {
	return p.patchless() || p.choice.Device != "" && !slices.Contains(p.Patch.Consoles(), p.choice.Device)
}

// drawChannels prints a sheet for each console and act: its channels in order, for who mixes there.
func (p *printout) drawChannels(b *paper.Book) {
	b.Title("Patch by channel")
	sheets := p.sheets(b)
	house := p.Patch.ConsoleRows(p.Patch.House())
	for _, act := range p.acts() {
		channels := p.Patch.ConsoleRows(act)
		for _, console := range p.Patch.Consoles() {
			rows := channels[console]
			device, _ := p.Plan.Device(console)
			if len(rows) == 0 || !act.Here(console) || !p.wantsDevice(device) {
				continue
			}
			title := p.Patch.Name(console) + p.ofAct(act)
			sheets.add(act, p.channelTable(title, act, rows), p.channelTable(title, p.Patch.House(), house[console]), false)
		}
	}
	sheets.finish("No channel of a console is patched.")
}

func (p *printout) channelTable(title string, act *patch.Act, rows []patch.ChannelRow) paper.Table {
	table := paper.Table{
		Title: title,
		Columns: []paper.Column{
			{Head: "Channel", Face: paper.Mono},
			{Head: "Input", Width: paper.Fill(1.2), Lines: 3},
			{Head: "Source or mic, stand", Width: paper.Fill(1), Lines: 3},
			{Head: "From socket", Width: paper.Fill(0.9), Lines: 3},
			{Head: "Over", Width: paper.Fill(0.8), Lines: 3},
			{Head: "48 V, gain by others", Width: paper.Fill(0.8), Lines: 6},
			{Head: "Heard", Align: paper.Centre},
		},
		BlankRows: 2,
	}
	for _, row := range rows {
		var inputs, sources []string
		for _, line := range row.Lines {
			inputs, sources = append(inputs, p.inputName(line.Input)), append(sources, source(line.Input))
		}
		over := p.Patch.SlotWords(row.Channel.Hops)
		if !row.Channel.Reached {
			over = "NOT REACHED"
		}
		if row.Channel.Lost.Cause != 0 {
			over = p.Patch.Unreached(row.Channel.Lost)
		}
		cells := paper.Texts(fmt.Sprint(row.Number), strings.Join(inputs, " and "), strings.Join(sources, "; "), p.Patch.SocketWords(row.Socket), over, p.owners(act, row), "")
		cells.Cells[1].Bold, cells.Cells[6].Tick = true, true
		table.Rows = append(table.Rows, cells)
	}
	return table
}

// owners says who else sets the gain, and what is to be known of 48 V, for what a channel gets.
func (p *printout) owners(act *patch.Act, row patch.ChannelRow) string {
	for _, line := range row.Lines {
		for i := range line.Legs {
			leg := &line.Legs[i]
			if leg.Socket != row.Socket {
				continue
			}
			gain := ""
			if leg.Gain != "" && leg.Gain != row.Channel.Console {
				gain = "gain " + p.Patch.Name(leg.Gain)
			}
			return listedWords(gain, p.switches(act, line, leg, row.Channel.Console))
		}
	}
	return ""
}

// switches says what a console has to know of 48 V on a leg: who switches it there, that it must not be, or that none comes from
// there. Whoever switches it at the console itself is not named.
func (p *printout) switches(act *patch.Act, line *patch.Line, leg *patch.Leg, console plan.DeviceID) string {
	suffers := patch.BearingOf(line.Input) == patch.Suffers
	for _, feed := range p.Patch.Feeds(act, line) {
		switch {
		case feed.Socket != leg.Socket:
		case suffers:
			return "NO 48 V – " + patch.TypeWords(line.Input)
		case line.Input.Phantom && p.Patch.Powered(act, line)[feed.Socket]:
			if feed.Switch == console {
				return wants48
			}
			return strings.TrimSpace(wants48 + " " + p.Patch.Name(feed.Switch))
		}
	}
	if line.Input.Phantom && !suffers {
		return "no 48 V from here"
	}
	return ""
}

// drawPatchChanges prints, act by act, only what the crew changes from the act before.
func (p *printout) drawPatchChanges(b *paper.Book) {
	b.Title("Changes between acts")
	shown := p.Patch.Shown()
	for number, act := range shown {
		if number == 0 || p.choice.Act != "" && act.Act.ID != p.choice.Act {
			continue
		}
		before := shown[number-1]
		name, last := p.Patch.ActName(act.Act.ID), p.Patch.ActName(before.Act.ID)
		b.Bookmark(name)
		b.Table(p.changesTable(fmt.Sprintf("%s, after %s%s", name, last, times(act.Act)), before, act))
		p.drawPhantomChanges(b, act)
		b.Skip(3 * b.Scale())
	}
	if len(shown) < 2 {
		b.Paragraph("This plan has no acts to change between.")
	}
}

// times are when an act begins and ends, and on which stage.
func times(act plan.Act) string {
	said := ""
	switch {
	case act.Start != "" && act.End != "":
		said = ", " + act.Start + "–" + act.End
	case act.Start != "":
		said = ", from " + act.Start
	}
	if act.Stage != "" {
		said += ", " + act.Stage
	}
	return said
}

func (p *printout) changesTable(title string, before, act *patch.Act) paper.Table {
	table := paper.Table{
		Title: title,
		Columns: []paper.Column{
			{Head: "Input", Width: paper.Fill(1), Lines: 3},
			{Head: "Was", Width: paper.Fill(1.3), Lines: longCall},
			{Head: "Now", Width: paper.Fill(1.3), Lines: longCall},
			{Head: "Done", Align: paper.Centre},
		},
		BlankRows: 2,
		Empty:     "Nothing changes.",
	}
	for _, change := range p.changesFrom(before, act) {
		row := paper.Texts(change[0], change[1], change[2], "")
		row.Cells[0].Bold, row.Cells[3].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// changesFrom lists what an act has otherwise than the act before: what it is, how it was, how it is now.
func (p *printout) changesFrom(before, act *patch.Act) (changes [][3]string) {
	add := func(name, was, now string) {
		if was != now {
			changes = append(changes, [3]string{name, was, now})
		}
	}
	for _, line := range act.Lines {
		was, _ := before.Line(line.Input.ID)
		if p.wantsLine(act, line) || was != nil && p.wantsLine(before, was) {
			add(p.inputName(line.Input), p.lineWords(before, was), p.lineWords(act, line))
		}
	}
	for _, line := range before.Lines {
		if _, stays := act.Line(line.Input.ID); !stays && p.wantsLine(before, line) {
			add(p.inputName(line.Input), p.lineWords(before, line), "not in this act")
		}
	}
	for _, guest := range act.Guests {
		if !before.Here(guest) {
			add(p.Patch.Name(guest), "not there", "plug it in")
		}
	}
	for _, guest := range before.Guests {
		if !act.Here(guest) {
			add(p.Patch.Name(guest), "plugged in", "take it out")
		}
	}
	return changes
}

// longCall is how many lines a call over a sub-snake and a splitter may take.
const longCall = 9

// lineWords is where an input is plugged in and where it arrives.
func (p *printout) lineWords(act *patch.Act, line *patch.Line) string {
	if line == nil || !line.Patched() {
		return "not plugged"
	}
	words := p.placeWords(act, line)
	if channels := p.channels(line.Channels()); len(channels) > 0 {
		words += " → " + strings.Join(channels, ", ")
	}
	return words
}

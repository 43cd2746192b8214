package report

import (
	"fmt"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawChannels prints a sheet for each console and act: its channels in order, for who mixes there.
func (p *printout) drawChannels(b *paper.Book) {
	b.Title("Patch by channel")
	sheets := actSheets{book: b}
	house := p.Patch.ConsoleRows(p.Patch.House())
	for _, act := range p.acts() {
		channels := p.Patch.ConsoleRows(act)
		for _, console := range p.Patch.Consoles() {
			rows := channels[console]
			device, _ := p.Plan.Device(console)
			if len(rows) == 0 || !act.Here(console) || p.choice.Position != "" && device.Position != p.choice.Position {
				continue
			}
			title := p.Patch.Name(console) + p.ofAct(act)
			sheets.add(act, p.channelTable(title, act, rows), p.channelTable(title, p.Patch.House(), house[console]))
		}
	}
	if !sheets.written {
		b.Paragraph("No channel of a console is patched.")
	}
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
			{Head: "Gain, 48 V", Width: paper.Fill(0.8), Lines: 6},
			{Head: "Heard", Align: paper.Centre},
		},
		BlankRows: 2,
	}
	for _, row := range rows {
		var inputs, sources []string
		for _, line := range row.Lines {
			inputs, sources = append(inputs, inputName(line.Input)), append(sources, source(line.Input))
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

// owners says who sets the gain and who switches 48 V for what a channel gets.
func (p *printout) owners(act *patch.Act, row patch.ChannelRow) string {
	for _, line := range row.Lines {
		for i := range line.Legs {
			leg := &line.Legs[i]
			if leg.Socket != row.Socket {
				continue
			}
			var said []string
			if leg.Gain != "" {
				said = append(said, "gain "+p.Patch.Name(leg.Gain))
			}
			if words := p.switches(act, line, leg); words != "" {
				said = append(said, words)
			}
			return strings.Join(said, ", ")
		}
	}
	return ""
}

// switches says what a console has to know of 48 V on a leg: who switches it there, that it must not be, or that none comes from
// there.
func (p *printout) switches(act *patch.Act, line *patch.Line, leg *patch.Leg) string {
	suffers := patch.BearingOf(line.Input) == patch.Suffers
	for _, feed := range p.Patch.Feeds(act, line) {
		switch {
		case feed.Socket != leg.Socket:
		case suffers:
			return "NO 48 V – " + patch.TypeWords(line.Input)
		case line.Input.Phantom && p.Patch.Powered(act, line)[feed.Socket]:
			return strings.TrimSpace("48 V " + p.Patch.Name(feed.Switch))
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
		add(inputName(line.Input), p.lineWords(was), p.lineWords(line))
	}
	for _, line := range before.Lines {
		if _, stays := act.Line(line.Input.ID); !stays {
			add(inputName(line.Input), p.lineWords(line), "not in this act")
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

// lineWords is a line as it is read aloud, without the input's name; nothing is not patched.
func (p *printout) lineWords(line *patch.Line) string {
	if line == nil || !line.Patched() {
		return "not plugged"
	}
	words := p.Patch.Words(line)
	if _, behind, found := strings.Cut(words, " → "); found {
		return behind
	}
	return words
}

// drawLineCheck prints the inputs of an act in the order of the line check, as they are called out.
func (p *printout) drawLineCheck(b *paper.Book) {
	b.Title("Line check")
	drawn := 0
	for _, act := range p.acts() {
		if len(act.Lines) == 0 {
			continue
		}
		if drawn > 0 {
			b.NewPage()
		}
		drawn++
		title := strings.TrimPrefix(p.ofAct(act)+times(act.Act), ", ")
		b.Table(p.lineTable(title, act))
	}
	if drawn == 0 {
		b.Paragraph("This plan has no input.")
	}
}

func (p *printout) lineTable(title string, act *patch.Act) paper.Table {
	table := paper.Table{
		Title: title,
		Columns: []paper.Column{
			{Head: "No.", Face: paper.Mono},
			{Head: "Call", Width: paper.Fill(2.2), Lines: 8},
			{Head: "Source or mic, stand", Width: paper.Fill(1), Lines: 3},
			{Head: "48 V", Align: paper.Centre, Width: paper.Fit(phantomColumn), Lines: 4},
			{Head: "At box", Align: paper.Centre},
			{Head: "Heard", Align: paper.Centre},
		},
		BlankRows: 2,
	}
	phantoms := p.Patch.PhantomSheet(act)
	for _, line := range act.Lines {
		if line.Struck {
			continue
		}
		power := phantoms.Beside(line)
		row := paper.Texts(fmt.Sprint(line.Input.Number), p.Patch.Words(line), source(line.Input), power, "", "")
		row.Cells[4].Tick, row.Cells[5].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

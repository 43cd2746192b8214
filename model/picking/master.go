package picking

import "slices"

// entry is a coefficient of a column in a row.
type entry struct{ row, value int }

// column is one choice of a group: a pattern of a link, a piece held back, a case opened, reels hired.
type column struct {
	group   int
	cost    [objectives]int
	entries []entry
	lines   []int // the reels of a pattern, in order
	loss    []int // of a pattern, at each frequency
	empty   bool  // the choice of nothing
}

// master is the problem as groups of columns, one of each group to be chosen, and rows that bound their sums.
type master struct {
	problem  *Problem
	columns  []column
	groups   [][]int // columns of each group; links come first
	capacity []int   // of each row
	dead     []bool  // columns that no answer as good as the best can use
	patterns int
	whole    bool // every pattern is there
}

// newMaster lists all patterns and couples them; hire allows reels beyond the stock.
func newMaster(p *Problem, hire bool) *master {
	m := &master{problem: p, whole: true}
	stocked := p
	if hire {
		stocked = p.plenty()
	}
	for number := range p.Links {
		list, whole := patternsOf(stocked, number)
		m.whole = m.whole && whole
		m.addLink(number, list)
	}
	stock := make([]int, len(p.Lines))
	for line := range p.Lines {
		stock[line] = m.addRow(p.Lines[line].Count)
	}
	for i := range m.columns {
		m.columns[i].entries = stockEntries(m.columns[i].lines, stock)
	}
	m.addApart()
	m.addWholes()
	m.addSpares(stock)
	m.addCases(stock)
	if hire {
		m.addHired(stock)
	}
	m.dead = make([]bool, len(m.columns))
	m.tighten()
	return m
}

func (m *master) addRow(capacity int) int {
	m.capacity = append(m.capacity, capacity)
	return len(m.capacity) - 1
}

func (m *master) newGroup() int {
	m.groups = append(m.groups, nil)
	return len(m.groups) - 1
}

func (m *master) addColumn(c column) {
	m.groups[c.group] = append(m.groups[c.group], len(m.columns))
	m.columns = append(m.columns, c)
}

// addLink makes the group of a link: nothing, or one of its patterns.
func (m *master) addLink(number int, list []pattern) {
	link := &m.problem.Links[number]
	group := m.newGroup()
	nothing := column{group: group, empty: true}
	nothing.cost[Unserved] = link.Priority
	for _, use := range link.Before {
		nothing.cost[Changes] += use.Count
	}
	if slices.ContainsFunc(list, func(p pattern) bool { return link.Lies && p.cost[TakenApart] == 0 }) {
		nothing.cost[TakenApart] = 1
	}
	if link.Need > 0 {
		m.addColumn(nothing)
	}
	for _, p := range list {
		m.addColumn(column{group: group, cost: p.cost, lines: p.lines, loss: p.loss})
	}
	m.patterns += len(list)
}

// stockEntries counts the reels of a pattern by line.
func stockEntries(lines, stock []int) []entry {
	var entries []entry
	sorted := slices.Sorted(slices.Values(lines))
	for i, line := range sorted {
		if i > 0 && sorted[i-1] == line {
			entries[len(entries)-1].value++
		} else {
			entries = append(entries, entry{stock[line], 1})
		}
	}
	return entries
}

// addApart adds, for each pair whose kinds must differ and each kind that both could use, a row that lets one of them.
func (m *master) addApart() {
	for _, pair := range m.problem.Apart {
		main, backup := m.kindsOf(pair.Main), m.kindsOf(pair.Backup)
		for kind := range main {
			if !backup[kind] {
				delete(main, kind)
			}
		}
		shared := make([]int, 0, len(main))
		for kind := range main {
			shared = append(shared, kind)
		}
		slices.Sort(shared)
		for _, kind := range shared {
			row := m.addRow(1)
			for _, group := range []int{pair.Main, pair.Backup} {
				for _, i := range m.groups[group] {
					if m.uses(i, kind) {
						m.columns[i].entries = append(m.columns[i].entries, entry{row, 1})
					}
				}
			}
		}
	}
}

// kindsOf are the kinds that the patterns of a link use.
func (m *master) kindsOf(group int) map[int]bool {
	kinds := map[int]bool{}
	for _, i := range m.groups[group] {
		for _, line := range m.columns[i].lines {
			kinds[m.problem.Lines[line].Kind] = true
		}
	}
	return kinds
}

// uses reports whether a pattern has a reel of a kind.
func (m *master) uses(i, kind int) bool {
	return slices.ContainsFunc(m.columns[i].lines, func(line int) bool { return m.problem.Lines[line].Kind == kind })
}

// addWholes adds, for each whole, a row that keeps the losses of its links together within its limit, and a group that pays
// where its wanted margin does not fit in as well.
func (m *master) addWholes() {
	for _, whole := range m.problem.Wholes {
		row := m.addRow(whole.Limit)
		for _, link := range whole.Links {
			for _, i := range m.groups[link] {
				if c := &m.columns[i]; len(c.loss) > 0 && c.loss[0] > 0 {
					c.entries = append(c.entries, entry{row, c.loss[0]})
				}
			}
		}
		group := m.newGroup()
		under := column{group: group, empty: true}
		under.cost[UnderMargin] = 1
		m.addColumn(under)
		m.addColumn(column{group: group, entries: []entry{{row, whole.Wanted}}, empty: true})
	}
}

// addSpares makes a group for each piece to hold back: one reel of its lines, or none.
func (m *master) addSpares(stock []int) {
	for _, spare := range m.problem.Spares {
		group := m.newGroup()
		none := column{group: group, empty: true}
		none.cost[NotHeld] = 1
		m.addColumn(none)
		for _, line := range spare.Lines {
			m.addColumn(column{group: group, entries: []entry{{stock[line], 1}}})
		}
	}
}

// addCases makes a group for each case: shut, or open, which alone lets its reels be used. Where all live in one case, or
// none in any, there is nothing to choose.
func (m *master) addCases(stock []int) {
	lines := map[int][]int{}
	for line := range m.problem.Lines {
		if box := m.problem.Lines[line].Case; box > 0 {
			lines[box] = append(lines[box], line)
		}
	}
	if len(lines) < 2 {
		return
	}
	boxes := make([]int, 0, len(lines))
	for box := range lines {
		boxes = append(boxes, box)
	}
	slices.Sort(boxes)
	for _, box := range boxes {
		group := m.newGroup()
		open := column{group: group}
		open.cost[Cases] = 1
		for _, line := range lines[box] {
			open.entries = append(open.entries, entry{stock[line], -m.capacity[stock[line]]})
			m.capacity[stock[line]] = 0
		}
		m.addColumn(open)
		m.addColumn(column{group: group, empty: true})
	}
}

// addHired makes a group for each line: how many of its reels are had beyond the stock, those of the shelf before any is hired.
func (m *master) addHired(stock []int) {
	for line, row := range stock {
		most := 0
		for group := range m.problem.Links {
			use := 0
			for _, i := range m.groups[group] {
				for _, e := range m.columns[i].entries {
					if e.row == row {
						use = max(use, e.value)
					}
				}
			}
			most += use
		}
		if most == 0 {
			continue
		}
		group, shelf := m.newGroup(), m.problem.Lines[line].Shelf
		for n := range min(most, mostHired+shelf) + 1 {
			c := column{group: group, entries: []entry{{row, -n}}, empty: n == 0, lines: slices.Repeat([]int{line}, n)}
			c.cost[Hired], c.cost[FromShelf] = max(0, n-shelf), min(n, shelf)
			c.cost[HiredLength] = c.cost[Hired] * m.problem.Lines[line].Length
			m.addColumn(c)
		}
	}
}

// mostHired bounds how many reels of one line are hired.
const mostHired = 400

// tighten drops rows that cannot bind, whatever is chosen.
func (m *master) tighten() {
	most := make([]int, len(m.capacity))
	for _, group := range m.groups {
		largest := map[int]int{}
		for _, i := range group {
			for _, e := range m.columns[i].entries {
				if old, seen := largest[e.row]; !seen || e.value > old {
					largest[e.row] = e.value
				}
			}
		}
		for row, value := range largest {
			most[row] += max(0, value)
		}
	}
	place := make([]int, len(m.capacity))
	kept := m.capacity[:0:0]
	for row, capacity := range m.capacity {
		place[row] = -1
		if most[row] > capacity {
			place[row] = len(kept)
			kept = append(kept, capacity)
		}
	}
	m.capacity = kept
	for i := range m.columns {
		entries := m.columns[i].entries[:0]
		for _, e := range m.columns[i].entries {
			if place[e.row] >= 0 {
				entries = append(entries, entry{place[e.row], e.value})
			}
		}
		m.columns[i].entries = entries
	}
}

// sums adds up the objectives of a choice of one column for each group.
func (m *master) sums(choice []int) (total [objectives]int) {
	for _, i := range choice {
		for o, cost := range m.columns[i].cost {
			total[o] += cost
		}
	}
	return total
}

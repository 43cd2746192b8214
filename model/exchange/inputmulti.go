package exchange

// readMultis finds the sub-snakes that columns of multicores and their lines name, where no column says it as such.
func (m *match) readMultis() {
	sheet := m.in.sheet
	for i := range m.rows {
		row := &m.rows[i]
		sheet.at = row.Row - 1
		multi, _ := halfOf(m.multis[sheet.at], row.Half)
		way, alone := halfOf(sheet.text(Line), row.Half)
		number, err := readCount(way, 1, mostWay)
		if row.Input.Snake != "" || saysNone(multi) || alone || err != nil {
			continue
		}
		socket, found := m.view.MultiSocket(multi, number)
		if !found {
			continue
		}
		row.Input.Snake, row.Input.SnakeWay, row.byMulti = socket.Device, socket.Number, true
	}
}

// mostWay is the highest way that an input is plugged into, as the plan has it.
const mostWay = 1024

// saysSnake reports whether the list says of a row where its sub-snake is.
func (m *match) saysSnake(row *matched) bool { return m.has(Snake) || row.byMulti }

package plan

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/geom"
)

// Alignment is how devices are brought into line.
type Alignment uint8

// The alignments: the first four to the outermost of the devices, a row and a column to their mean.
const (
	AlignLeft Alignment = iota
	AlignRight
	AlignTop
	AlignBottom
	AlignRow
	AlignColumn
)

// Align brings devices into line; it needs two. Positions stay; links follow as with any move.
func (e *Edit) Align(devices []DeviceID, how Alignment) error {
	rows, err := e.devicesToArrange(devices, 2)
	if err != nil {
		return err
	}
	bounds, mean := geom.EmptyBox(), geom.Point{}
	for _, row := range rows {
		bounds = bounds.Include(row.At())
		mean = mean.Add(row.At().Scale(1 / float64(len(rows))))
	}
	for _, row := range rows {
		to := row.At()
		switch how {
		case AlignLeft:
			to.X = bounds.Min.X
		case AlignRight:
			to.X = bounds.Max.X
		case AlignTop:
			to.Y = bounds.Max.Y
		case AlignBottom:
			to.Y = bounds.Min.Y
		case AlignRow:
			to.Y = mean.Y
		case AlignColumn:
			to.X = mean.X
		}
		e.moveTo(row, to)
	}
	return nil
}

// Distribute spaces devices evenly between the two outermost, along the axis on which they reach further; it needs
// three.
func (e *Edit) Distribute(devices []DeviceID) error {
	rows, err := e.devicesToArrange(devices, 3)
	if err != nil {
		return err
	}
	bounds := geom.EmptyBox()
	for _, row := range rows {
		bounds = bounds.Include(row.At())
	}
	across := bounds.Width() >= bounds.Height()
	slices.SortStableFunc(rows, func(a, b Device) int {
		if across {
			return cmp.Compare(a.X, b.X)
		}
		return cmp.Compare(a.Y, b.Y)
	})
	for i, row := range rows {
		share, to := float64(i)/float64(len(rows)-1), row.At()
		if across {
			to.X = bounds.Min.X + share*bounds.Width()
		} else {
			to.Y = bounds.Min.Y + share*bounds.Height()
		}
		e.moveTo(row, to)
	}
	return nil
}

func (e *Edit) devicesToArrange(ids []DeviceID, least int) ([]Device, error) {
	var rows []Device
	for _, id := range ids {
		if row, found := e.next.Device(id); found {
			rows = append(rows, row)
		}
	}
	if len(rows) < least {
		return nil, refuse("select at least %d devices", least)
	}
	return rows, nil
}

func (e *Edit) moveTo(row Device, to geom.Point) {
	if !row.Unplaced { // one without a place is only drawn elsewhere
		m := Moving{Devices: map[DeviceID]bool{row.ID: true}}
		row.Position = m.PositionAfter(&e.next, row, to.Sub(row.At()))
	}
	row.X, row.Y = to.X, to.Y
	Put(e, row)
}

// Renumber names links L01, L02, … in the order given. Names that other links bear, or that stood on an issued revision, are
// passed over, and a link that stood on one keeps its name: it is on the crew's paper and on its labels.
func (e *Edit) Renumber(links []LinkID) error {
	var fresh []LinkID
	chosen, taken := map[LinkID]bool{}, map[string]bool{}
	for _, id := range links {
		if link, found := e.next.Link(id); !found || !e.next.WasIssued(link) {
			fresh, chosen[id] = append(fresh, id), true
		}
	}
	if len(fresh) == 0 && len(links) > 0 {
		return refuse("links that stood on an issued revision keep their names, which are on the crew's paper; there is no other among these")
	}
	for link := range e.next.Links.All() {
		if !chosen[link.ID] {
			taken[Folded(link.Name)] = true
		}
	}
	for name := range e.next.issued().links {
		taken[name] = true
	}
	n := 0
	for _, id := range fresh {
		n++
		for taken[Folded(fmt.Sprintf("L%02d", n))] {
			n++
		}
		if err := Update(e, Key(id), func(r *Link) { r.Name = fmt.Sprintf("L%02d", n) }); err != nil {
			return err
		}
	}
	return nil
}

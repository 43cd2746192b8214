package exchange

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// The fields of a list of devices that other lists have not.
var (
	At        = fields.Of(plan.DevicesTable, "position").Name
	Right     = fields.Of(plan.DevicesTable, "x").Name
	Up        = fields.Of(plan.DevicesTable, "y").Name
	Supply    = fields.Of(plan.DevicesTable, "supply").Name
	Structure = fields.Of(plan.DevicesTable, "structure").Name
)

// DeviceFields are what a column of a list of devices can mean.
func DeviceFields() []Field {
	place := func(text string) bool { _, err := quantity.ReadCoordinate(text, quantity.Metric); return err == nil }
	return []Field{
		{Name: Name, Words: []string{"name", "device", "device name", "called", "label", "gerät"}, never: isCount},
		{Name: Kind, Words: []string{"kind", "type", "device kind", "device type", "item", "equipment", "model", "what", "description", "typ", "art"}, never: isCount},
		{Name: Quantity, Words: []string{"quantity", "qty", "count", "pcs", "pieces", "number of", "how many", "anzahl", "stück", "menge", "quantité"}, looks: isCount},
		{Name: At, Words: []string{"position", "place", "location", "where", "stands at", "area", "ort", "platz"}, never: isCount},
		{Name: Right, Words: []string{"to the right", "x", "x m", "x ft", "right", "across", "easting"}, looks: place},
		{Name: Up, Words: []string{"up the page", "y", "y m", "y ft", "up", "up the plan", "northing"}, looks: place},
		{Name: Supply, Words: []string{"supply", "fed from", "mains", "power from", "power"}},
		{Name: Structure, Words: []string{"structure", "built on", "stands on", "tower", "truss"}},
		{Name: Note, Words: []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung"}},
	}
}

// DeviceOptions are what the cells of a list of devices are read by.
type DeviceOptions struct {
	// Bare is the system of coordinates without a unit under a head that names none.
	Bare quantity.System
	// Kinds are the kinds of device that words are looked for in.
	Kinds []plan.Kind
	// Named says what other words of the list mean; the keys are as Devices.Unknown gives them.
	Named map[string]plan.KindID
}

// DeviceRow is one good row: a device without id and position, how many of it, and the name of its position. It has no place
// unless the row gives both coordinates. A blank kind is that of the device in the plan which bears the name.
type DeviceRow struct {
	Row      int
	Device   plan.Device
	Count    int
	Position string
}

// Devices is a list of devices as read: its good rows, and why the others are none.
type Devices struct {
	Rows   []DeviceRow
	Faults []Fault
	// Unknown are the words for kinds that no kind bears, in the order of the list, each once.
	Unknown []string
	bare    quantity.System
	kinds   map[plan.KindID]string
}

// mostDevices is the most devices that one row stands for.
const mostDevices = 1000

// ReadDevices reads the devices of a grid that comes into a plan. A row with a fault is in Faults alone; blank rows are passed
// over. A row that bears the name of a device of the plan is that device.
func ReadDevices(g Grid, l Layout, p *plan.Plan, o DeviceOptions) Devices {
	r := deviceReader{sheetRows: sheetRows{table: plan.DevicesTable, grid: g, layout: l}, options: o, named: devicesByName(p), seen: map[string]int{}}
	if l.column(Kind) < 0 && l.column(Name) < 0 {
		return Devices{Faults: []Fault{{Row: max(1, l.Head), Words: "no column is the kind or the name of the device: say which one is"}}}
	}
	d := Devices{bare: o.Bare, kinds: map[plan.KindID]string{}}
	for _, kind := range o.Kinds {
		d.kinds[kind.ID] = kind.Name
	}
	total := p.Devices.Len()
	r.each(func() {
		before := len(r.faults)
		row := r.row()
		if total += row.Count; len(r.faults) == before && total > plan.MaxRows {
			r.fail(Quantity, fmt.Errorf("with this row the plan has more than %d devices", plan.MaxRows))
		}
		if len(r.faults) == before {
			d.Rows = append(d.Rows, row)
		}
	})
	d.Faults, d.Unknown = r.faults, r.unknown
	return d
}

type deviceReader struct {
	sheetRows
	options DeviceOptions
	unknown []string
	named   map[string][]plan.Device
	seen    map[string]int
}

// row reads the row at hand.
func (r *deviceReader) row() DeviceRow {
	row := DeviceRow{Row: r.number(), Count: 1, Position: r.words(At), Device: plan.Device{
		Name: r.words(Name), Supply: r.words(Supply), Structure: r.words(Structure), Note: r.words(Note), Unplaced: true,
	}}
	if count := take(&r.sheetRows, Quantity, func(text string) (int, error) { return readCount(text, 1, mostDevices) }); count > 0 {
		row.Count = count
	}
	known := r.named[plan.Folded(row.Device.Name)]
	row.Device.Kind = r.kind(len(known) > 0)
	r.place(&row.Device)
	r.once(row, known)
	return row
}

// once finds a name that stands in the list or the plan twice.
func (r *deviceReader) once(row DeviceRow, known []plan.Device) {
	name := plan.Folded(row.Device.Name)
	switch {
	case name == "":
		return
	case r.seen[name] > 0:
		r.fail(Name, fmt.Errorf("%q stands in row %d already: give it another name, or a quantity", plan.Clipped(row.Device.Name), r.seen[name]))
		return
	case len(known) > 1:
		r.fail(Name, fmt.Errorf("%d devices of the plan are called %q: give each a name of its own first", len(known), plan.Clipped(row.Device.Name)))
	case len(known) == 1 && row.Count > 1:
		r.fail(Quantity, fmt.Errorf("%q is in the plan already, once: write a quantity of 1, or another name", plan.Clipped(row.Device.Name)))
	}
	r.seen[name] = r.number()
}

// kind finds the kind that the row names. One that is in the plan already may leave it out.
func (r *deviceReader) kind(known bool) plan.KindID {
	words := tidy(r.text(Kind), false)
	if words == "" {
		if !known {
			r.fail(Kind, errors.New("no kind of device is written; write for instance Stage box or Console, as the list of equipment has it"))
		}
		return ""
	}
	if id := r.means(words); id != "" {
		return id
	}
	if !slices.Contains(r.unknown, words) {
		r.unknown = append(r.unknown, words)
	}
	r.fail(Kind, fmt.Errorf("%q is no kind of device here, or may be several: say what it means", plan.Clipped(words)))
	return ""
}

// means is the kind that words mean: as the user says, by its name, or by the beginning of one name alone.
func (r *deviceReader) means(words string) plan.KindID {
	if id := r.options.Named[words]; id != "" {
		return id
	}
	said, begins := plain(words), []plan.KindID(nil)
	if said == "" {
		return ""
	}
	for _, kind := range r.options.Kinds {
		switch name := plain(kind.Name); {
		case name == said || plain(string(kind.ID)) == said:
			return kind.ID
		case strings.HasPrefix(name, said):
			begins = append(begins, kind.ID)
		}
	}
	if len(begins) == 1 {
		return begins[0]
	}
	return ""
}

// place reads the two coordinates; a device has both or is in the list alone.
func (r *deviceReader) place(device *plan.Device) {
	across, up := r.text(Right) != "", r.text(Up) != ""
	device.X, device.Y = r.coordinate(Right), r.coordinate(Up)
	switch {
	case across && up:
		device.Unplaced = false
	case across:
		r.fail(Up, errors.New("how far right is written and how far up is not: write both, or neither for a device in the list"))
	case up:
		r.fail(Right, errors.New("how far up is written and how far right is not: write both, or neither for a device in the list"))
	}
}

func (r *deviceReader) coordinate(field string) float64 {
	return take(&r.sheetRows, field, func(text string) (float64, error) {
		return r.field(field).Parse(words.Units{Length: lengthSystem(r.head(field), r.options.Bare)}, text)
	})
}

func devicesByName(p *plan.Plan) map[string][]plan.Device {
	named := map[string][]plan.Device{}
	for device := range p.Devices.All() {
		name := plan.Folded(device.Name)
		named[name] = append(named[name], device)
	}
	return named
}

package picture

import (
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Options say what a picture shows beside the plan itself.
type Options struct {
	// Selected rows are drawn in the selection's look.
	Selected map[Ref]bool
	// Hidden devices and links are left out: they move, and are drawn by Overlay.
	Hidden *plan.Moving
	// Level shows one level and fades what lies on others; blank shows all alike.
	Level plan.LevelID
	// Undone makes links faint that are done up to this step on site, so that what is left stands out; blank makes none.
	Undone string
	// Unit is the length of the grid's unit: 1 for metres, 0.3048 for feet.
	Unit float64
	// Margin is how far in points the view reaches beyond what is seen now; labels seek a place inside first.
	Margin float64
	// Clear are boxes of the view that labels and names keep off, for what is drawn there besides.
	Clear []geom.Box
	// Thorough tries more places for labels, and for names places that no line crosses: three times slower, for paper.
	Thorough bool
	// Bare leaves the grid out.
	Bare bool
	// Without leaves out what the user does not want to see.
	LeftOut LeftOut
	// Content is what the labels of links say.
	Content Content
	// TapeInWords writes the colour of a link's tape as a word, for prints in grey that no patch of colour serves.
	TapeInWords bool
	// Plain leaves the labels of links out, for pictures too small to read.
	Plain bool
}

// Picture is a lettered view: its marks, what a pointer hits, and the labels that found no place.
type Picture struct {
	View     View
	Marks    []Mark
	Unplaced []plan.LinkID

	arrangement *Arrangement
	options     Options
	targets     []target
	blocked     *obstacles
	solids      []solid
	leaders     []geom.Polyline
	untaped     []untaped
	fading      bool
	// places are where the ports of devices are, and bearer is the one device that is selected, which shows them.
	places map[plan.DeviceID][]PortPlace
	bearer plan.DeviceID
	// searched is for how many labels all of it was searched.
	searched int
}

// Letter draws an arrangement in a view. Labels never lie on each other, on devices or across the edge.
func Letter(a *Arrangement, v View, o Options) *Picture {
	if o.Unit == 0 {
		o.Unit = 1
	}
	p := &Picture{View: v, arrangement: a, options: o, blocked: newObstacles(v.Box()), bearer: bearerOf(o.Selected)}
	p.images()
	if !o.Bare && a.Scene.Grounded() {
		p.grid()
	}
	p.areas()
	p.outlines()
	p.listFrame()
	for _, box := range o.Clear {
		p.blocked.add(box)
	}
	p.keepOffBoxes()
	p.links()
	p.looms()
	p.gathered()
	for i := range a.Scene.Devices {
		if _, rowed := a.rowed(a.Scene.Devices[i].ID); !rowed {
			p.device(&a.Scene.Devices[i], a.widths[i])
		}
	}
	for i := range a.Scene.Devices { // over the boxes of their neighbours
		p.ports(&a.Scene.Devices[i])
	}
	p.hollowOutlines()
	p.keepOffPorts()
	p.dotNames(true)
	p.labels()
	p.placeNames()
	p.dotNames(false)
	p.tapes()
	return p
}

// keepOffBoxes lets labels keep off what has a box.
func (p *Picture) keepOffBoxes() {
	for i := range p.arrangement.Scene.Devices {
		if device := &p.arrangement.Scene.Devices[i]; !p.hides(device.ID) && !p.lacksDevice(device) {
			p.blocked.add(p.boxOf(device.ID))
		}
	}
	for i := range p.arrangement.blocks {
		p.blocked.add(p.arrangement.blocks[i].box.Shift(p.offset()))
	}
}

// solid is a device or a label: marks that no line may cross, with their box.
type solid struct {
	box      geom.Box
	from, to int
}

// solidly remembers what draw adds as one solid.
func (p *Picture) solidly(box geom.Box, draw func()) {
	from := len(p.Marks)
	draw()
	p.solids = append(p.solids, solid{box, from, len(p.Marks)})
}

func (p *Picture) add(m Mark) {
	m.Faded = m.Faded || p.fading
	p.Marks = append(p.Marks, m)
}

// fade begins or ends marks of levels that are not shown.
func (p *Picture) fade(levels ...plan.LevelID) {
	p.fading = p.options.Level != "" && len(levels) > 0 && !slices.Contains(levels, p.options.Level)
}

func (p *Picture) hides(id plan.DeviceID) bool {
	return p.options.Hidden != nil && p.options.Hidden.Devices[id]
}

func (p *Picture) hidesPosition(id plan.PositionID) bool {
	return p.options.Hidden != nil && p.options.Hidden.Positions[id]
}

func (p *Picture) hidesLink(id plan.LinkID) bool {
	return p.options.Hidden != nil && (p.options.Hidden.MovedWhole[id] || p.options.Hidden.Stretched[id])
}

// offset is what lies between the arrangement's points and the view's.
func (p *Picture) offset() geom.Point {
	return p.arrangement.world(p.View.Origin).Scale(-1)
}

func (p *Picture) boxOf(id plan.DeviceID) geom.Box {
	return p.arrangement.boxes[id].Shift(p.offset())
}

func (p *Picture) visible(box geom.Box) bool { return box.Overlaps(p.View.Box()) }

func (p *Picture) inView(points []geom.Point) []geom.Point {
	shift := p.offset()
	moved := make([]geom.Point, len(points))
	for i, at := range points {
		moved[i] = at.Add(shift)
	}
	return moved
}

func (p *Picture) areas() {
	for _, area := range p.arrangement.Scene.Areas {
		corners := make([]geom.Point, len(area.Corners))
		for i, at := range area.Corners {
			corners[i] = p.View.Point(at)
		}
		box := geom.BoxOf(corners...)
		if len(corners) < 3 || !p.visible(box) || p.lacksArea(area) {
			continue
		}
		ref := Ref{Table: plan.AreasTable, Key: plan.Key(area.ID)}
		p.add(Mark{Ref: ref, Shape: Fill, Role: areaRoles[area.Use], Points: corners})
		p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleAreaEdge, Points: append(corners[:len(corners):len(corners)], corners[0])})
		p.targets = append(p.targets, target{ref: ref, rank: rankArea, box: box, points: corners, area: true})
	}
}

func (p *Picture) device(device *DeviceFigure, width float64) {
	box := p.boxOf(device.ID)
	if !p.visible(box) || p.lacksDevice(device) {
		return
	}
	ref := Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}
	if p.hides(device.ID) { // not drawn here, but hit until it moves
		p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: box})
		if device.ID == p.bearer {
			p.aimPorts(device, box)
		}
		return
	}
	p.fade(device.Level)
	defer p.fade()
	p.leader(device, box)
	p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: box})
	p.solidly(box, func() {
		p.add(deviceMark(ref, box, p.arrangement.Dots, p.options.Selected[ref]))
		if !p.arrangement.Dots {
			p.deviceWords(ref, device, box, width)
		}
	})
}

// bearerOf is the device that is selected alone: of several, ports would cover each other's names.
func bearerOf(selected map[Ref]bool) (bearer plan.DeviceID) {
	for ref, is := range selected {
		if !is || ref.Table != plan.DevicesTable {
			continue
		}
		if bearer != "" {
			return ""
		}
		bearer = plan.DeviceID(ref.Key)
	}
	return bearer
}

// ports draws the ports of the one device that is selected.
func (p *Picture) ports(device *DeviceFigure) {
	box := p.boxOf(device.ID)
	if device.ID != p.bearer || !p.visible(box) || p.lacksDevice(device) || p.hides(device.ID) {
		return
	}
	p.Marks = append(p.Marks, p.portMarks(device, box)...)
	p.aimPorts(device, box)
}

func deviceMark(ref Ref, box geom.Box, dot, selected bool) Mark {
	m := Mark{Ref: ref, Shape: Panel, Role: RoleDeviceFill, Edge: RoleDeviceEdge, Points: []geom.Point{box.Min, box.Max}, Radius: 5}
	if dot {
		m.Role, m.Radius = RoleDeviceDot, 2
	}
	if selected {
		m.Edge = RoleSelected
	}
	return m
}

// leader ties a box that was pushed aside to where its device really stands.
func (p *Picture) leader(device *DeviceFigure, box geom.Box) {
	at := p.View.Point(device.At)
	if box.Contains(at) || p.hides(device.ID) {
		return
	}
	ref := Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}
	p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleLeader, Points: []geom.Point{at, edgePoint(box.Centre(), at, box)}})
	p.add(Mark{Ref: ref, Shape: Fill, Role: RoleDeviceDot, Points: ring(at, 2.5, 10, 0)})
}

func (p *Picture) deviceWords(ref Ref, device *DeviceFigure, box geom.Box, width float64) {
	scale, centre := p.arrangement.textScale, box.Centre()
	if p.arrangement.Scene.Gathered {
		p.rowWords(ref, device.Pictogram, device.Name, box)
		return
	}
	up := -7 * scale
	if p.arrangement.Short {
		up = 0
	}
	name := Shortened(device.Name, width-10*scale, deviceTextSize*scale, true, p.arrangement.measure)
	p.add(Mark{
		Ref: ref, Shape: Words, Role: RoleDeviceText, Points: []geom.Point{centre.Add(geom.Point{Y: up})},
		Text: name, Size: deviceTextSize * scale, Bold: true,
	})
	if p.arrangement.Short {
		return
	}
	kind := Shortened(device.Kind, width-10*scale, kindTextSize*scale, false, p.arrangement.measure)
	p.add(Mark{
		Ref: ref, Shape: Words, Role: RoleDeviceKindText, Points: []geom.Point{centre.Add(geom.Point{Y: 8.5 * scale})},
		Text: kind, Size: kindTextSize * scale,
	})
}

// Shortened cuts a text with an ellipsis so that it is no wider than given points.
func Shortened(text string, width, size float64, bold bool, measure Measure) string {
	if measure(text, size, bold) <= width {
		return text
	}
	runes := []rune(text)
	low, high := 0, len(runes)
	for low < high {
		middle := (low + high + 1) / 2
		if measure(string(runes[:middle])+"…", size, bold) <= width {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return string(runes[:low]) + "…"
}

package picture

import (
	"fmt"
	"sort"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// urgency orders labels for a place: what stops the show comes first.
var urgency = map[string]int{
	"over": 0, "faulty": 1, "tight": 2, "uncabled": 3, "to lay": 4, "to be tested": 5, "enough": 6, "ample": 7, "": 8,
}

// mostUrgent is up to which urgency a label is shown at any price.
const mostUrgent = 2

// mostSearched is for how many labels all of the picture is searched: on a plan where dozens stop the show none of them is lost
// among the others, and a search takes time.
const mostSearched = 8

// shares are the places along a link that a label tries, the middle first.
var shares = []float64{.5, .42, .58, .34, .66, .26, .74, .18, .82, .1, .9}

func wayPart(order int) string { return fmt.Sprintf("way %d", order) }

// labels places the label of every link in view, the urgent ones first.
func (p *Picture) labels() {
	if p.options.Plain || p.options.LeftOut.Labels {
		return
	}
	order := make([]int, 0, len(p.arrangement.Scene.Links))
	for i := range p.arrangement.Scene.Links {
		if link := &p.arrangement.Scene.Links[i]; !p.hidesLink(link.ID) && !p.lacksLink(link) && !p.folded(link) {
			order = append(order, i)
		}
	}
	links := p.arrangement.Scene.Links
	sort.SliceStable(order, func(a, b int) bool {
		if x, y := links[order[a]].done(p.options.Undone), links[order[b]].done(p.options.Undone); x != y {
			return y
		}
		return urgency[links[order[a]].Standing] < urgency[links[order[b]].Standing]
	})
	order = p.bundles(order)
	var selected []int // that found no place: what is selected is named all the same, over what lies there
	for _, i := range order {
		points := p.inView(p.arrangement.paths[i].points)
		switch {
		case !p.visible(geom.BoxOf(points...)), p.label(&links[i], points, p.blocked):
		case p.options.Selected[Ref{Table: plan.LinksTable, Key: plan.Key(links[i].ID)}]:
			selected = append(selected, i)
		default:
			p.Unplaced = append(p.Unplaced, links[i].ID)
		}
	}
	for n, i := range selected {
		if n == mostForced {
			for _, other := range selected[n:] {
				p.Unplaced = append(p.Unplaced, links[other].ID)
			}
			return
		}
		p.label(&links[i], p.inView(p.arrangement.paths[i].points), newObstacles(p.View.Box()))
	}
}

// mostForced is how many selected links are named where there is no room.
const mostForced = 3

// label draws a link's label at the first free place along its path, and reports whether there was one.
func (p *Picture) label(link *LinkFigure, points []geom.Point, blocked *obstacles) bool {
	set := p.labelSet(link)
	width, height := set.width(), set.size+8*p.arrangement.textScale
	box, found := p.freePlace(points, width, height, blocked)
	var foot geom.Point
	hung := false
	if !found {
		urgent := urgency[link.Standing] <= mostUrgent && p.searched < mostSearched
		if urgent {
			p.searched++
		}
		if box, foot, hung = p.hungPlace(points, width, height, blocked, urgent); !hung {
			return false
		}
	}
	blocked.add(box.Inset(-1))
	p.fadeLink(link)
	defer p.fade()
	if hung {
		p.hang(Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)}, box, foot, blocked)
	}
	p.solidly(box, func() { p.labelMarks(link, box, set) })
	if set.tape == 0 && blocked == p.blocked && p.tapeRoom(link) > 0 {
		p.untaped = append(p.untaped, untaped{link, len(p.solids) - 1, len(p.targets) - 1, hung, foot})
	}
	return true
}

// labelSet is how wide the parts of a link's label are, and how large its words, in points: its badge, its words, and
// what shows its tape; 0 for a part that it lacks.
type labelSet struct{ badge, text, tape, ends, size float64 }

func (s labelSet) width() float64 { return s.badge + s.text + s.tape + 2*s.ends }

func (p *Picture) labelSet(link *LinkFigure) labelSet {
	scale := p.arrangement.textScale
	set := labelSet{size: labelTextSize * scale, ends: labelEnds * scale}
	if BadgeRole(link.Grade) != "" {
		set.badge = 12 * scale
	}
	set.text = p.arrangement.measure(link.Words(p.options.Unit, p.options.Content), set.size, true)
	if link.Multicore {
		set.tape = p.tapeRoom(link)
	}
	return set
}

func (p *Picture) labelMarks(link *LinkFigure, box geom.Box, set labelSet) {
	ref := Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)}
	roles := rolesOf(link.Standing)
	edge := roles.label
	if p.options.Selected[ref] {
		edge = RoleSelected
	}
	p.add(Mark{Ref: ref, Shape: Panel, Role: RoleLabelFill, Edge: edge, Points: []geom.Point{box.Min, box.Max}, Radius: box.Height() / 2})
	centre := box.Centre()
	centre.X -= set.tape / 2 // of badge and words
	if set.badge > 0 {
		at := geom.Point{X: centre.X - (set.text+set.badge)/2 + set.badge*0.35, Y: centre.Y}
		p.add(Mark{Ref: ref, Shape: Fill, Role: roles.badge, Points: Badge(link.Grade, at, set.size*0.68)})
		if link.Grade != link.Standing {
			p.add(Mark{Ref: ref, Shape: Fill, Role: RoleLabelFill, Points: Badge(link.Grade, at, set.size*0.34)})
		}
	}
	p.add(Mark{
		Ref: ref, Shape: Words, Role: RoleLabelText, Points: []geom.Point{{X: centre.X + set.badge/2, Y: centre.Y}},
		Text: link.Words(p.options.Unit, p.options.Content), Size: set.size, Bold: true,
	})
	if set.tape > 0 {
		p.tapeMarks(link, box)
	}
	p.targets = append(p.targets, target{ref: ref, rank: rankLabel, box: box})
}

// freePlace finds a free box along a path: where it is seen now before what panning may bring, and on the line
// before beside it.
func (p *Picture) freePlace(points []geom.Point, width, height float64, blocked *obstacles) (geom.Box, bool) {
	way, frame := geom.Polyline(points), p.View.Box()
	places := p.placesAlong(points, frame, width)
	seen := frame.Inset(p.options.Margin)
	outside, found := geom.Box{}, false
	for _, side := range []float64{0, 1, -1} {
		for _, distance := range places {
			at, along := way.At(distance)
			across := along.Perpendicular()
			reach := side * (abs(across.X)*width + abs(across.Y)*height) / 2 * 1.15
			box := geom.BoxAround(at.Add(across.Scale(reach)), width, height)
			inside := seen.ContainsBox(box)
			if !inside && (found || !frame.ContainsBox(box)) || !blocked.free(box) {
				continue
			}
			if inside {
				return box, true
			}
			outside, found = box, true
		}
	}
	return outside, found
}

func abs(x float64) float64 { return max(x, -x) }

// placeNames writes the names of positions and areas where they cover nothing.
func (p *Picture) placeNames() {
	size := placeTextSize * p.arrangement.textScale
	for _, position := range p.arrangement.Scene.Positions {
		box := p.outlineOf(position)
		if !p.visible(box) || p.hidesPosition(position.ID) || p.lacksPosition(position) || p.arrangement.headed(position.ID) {
			continue
		}
		ref := Ref{Table: plan.PositionsTable, Key: plan.Key(position.ID)}
		p.nameBeside(ref, position.Name, box, size, RolePositionText)
	}
	if box, drawn := p.listBox(); drawn {
		p.nameBeside(Ref{}, InTheList, box, size, RolePositionText)
	}
	p.loomNames(size)
	for _, area := range p.arrangement.Scene.Areas {
		corners := make([]geom.Point, len(area.Corners))
		for i, at := range area.Corners {
			corners[i] = p.View.Point(at)
		}
		if box := geom.BoxOf(corners...).Intersection(p.View.Box()); len(corners) > 2 && !box.Empty() && !p.lacksArea(area) {
			p.nameInside(Ref{Table: plan.AreasTable, Key: plan.Key(area.ID)}, area.Name, box, size, RoleAreaText)
		}
	}
}

// mostNamedDots is up to how many devices names are sought a place beside dots: in larger plans few would find one.
const mostNamedDots = 100

// dotNames names devices that are dots: those selected before anything else seeks a place, the others in what room is left.
func (p *Picture) dotNames(selected bool) {
	scene := p.arrangement.Scene
	if !p.arrangement.Dots || scene.Nameless || p.options.Plain || !selected && len(scene.Devices) > mostNamedDots {
		return
	}
	size := placeTextSize * p.arrangement.textScale
	for i := range scene.Devices {
		device := &scene.Devices[i]
		ref, box := Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}, p.boxOf(device.ID)
		if p.options.Selected[ref] == selected && p.visible(box) && !p.hides(device.ID) && !p.lacksDevice(device) {
			p.nameBeside(ref, device.Name, box, size, RoleDeviceText)
		}
	}
}

func (p *Picture) nameBeside(ref Ref, name string, box geom.Box, size float64, role Role) {
	width, height := p.arrangement.measure(name, size, false)+6, size+4
	centre := box.Centre()
	places := []geom.Point{
		{X: centre.X, Y: box.Max.Y + height/2 + 1},
		{X: centre.X, Y: box.Min.Y - height/2 - 1},
		{X: box.Max.X + width/2 + 2, Y: centre.Y},
		{X: box.Min.X - width/2 - 2, Y: centre.Y},
		{X: box.Min.X + width/2, Y: box.Max.Y + height/2 + 1},
		{X: box.Max.X - width/2, Y: box.Max.Y + height/2 + 1},
		{X: box.Min.X + width/2, Y: box.Min.Y - height/2 - 1},
		{X: box.Max.X - width/2, Y: box.Min.Y - height/2 - 1},
	}
	p.name(ref, name, places, width, height, size, role)
}

func (p *Picture) nameInside(ref Ref, name string, box geom.Box, size float64, role Role) {
	width, height := p.arrangement.measure(name, size, false)+6, size+4
	if width > box.Width() || height > box.Height() {
		if p.options.Thorough {
			p.nameBeside(ref, name, box, size, role) // a strip that cables cross has to be found
		}
		return
	}
	centre := box.Centre()
	places := []geom.Point{centre}
	for _, dx := range []float64{0, 0.5, -0.5, 0.9, -0.9} {
		for _, dy := range []float64{0.5, -0.5, 0.9, -0.9} {
			places = append(places, geom.Point{X: centre.X + dx*(box.Width()-width)/2, Y: centre.Y + dy*(box.Height()-height)/2})
		}
	}
	p.name(ref, name, places, width, height, size, role)
}

// name writes a name at the first place that is free: one that is seen and that no line crosses, then one that is only
// crossed by lines, then one that panning brings.
func (p *Picture) name(ref Ref, name string, places []geom.Point, width, height, size float64, role Role) {
	seen := p.View.Box().Inset(p.options.Margin)
	for _, try := range []struct {
		frame   geom.Box
		crossed bool
	}{{seen, false}, {seen, true}, {p.View.Box(), true}} {
		for _, at := range places {
			box := geom.BoxAround(at, width, height)
			if !try.frame.ContainsBox(box) || !p.blocked.free(box) || p.options.Thorough && !try.crossed && p.crossed(box) {
				continue
			}
			p.blocked.add(box)
			p.add(Mark{Ref: ref, Shape: Words, Role: role, Points: []geom.Point{at}, Text: name, Size: size})
			p.targets = append(p.targets, target{ref: ref, rank: rankLabel, box: box})
			return
		}
	}
}

package picture

import (
	"fmt"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// mostInBundle is how many links the badge of a bundle names, the worst first; the others are counted.
const mostInBundle = 3

// sampleWidth is the width in points of the piece of line before a name in the badge of a bundle.
const sampleWidth = 15.0

// bundles gives links that share a way one badge where their own have no room along it, and returns those that are left. The
// order is that of urgency.
func (p *Picture) bundles(order []int) (rest []int) {
	if !p.arrangement.Scene.Gathered {
		return order
	}
	links, groups := p.arrangement.Scene.Links, map[string][]int{}
	for _, i := range order {
		if BadgeRole(links[i].Standing) != "" {
			key := p.arrangement.bundleKey(&links[i])
			groups[key] = append(groups[key], i)
		}
	}
	done := map[int]bool{}
	for _, i := range order {
		if done[i] {
			continue
		}
		group := groups[p.arrangement.bundleKey(&links[i])]
		if BadgeRole(links[i].Standing) == "" || len(group) < 2 || group[0] != i || !p.bundle(group) {
			rest = append(rest, i)
			continue
		}
		for _, member := range group {
			done[member] = true
		}
	}
	return rest
}

// bundleKey tells which links share a way: the same loom, the same way points, or the same two boxes at their ends.
func (a *Arrangement) bundleKey(link *LinkFigure) string {
	if link.Loom != "" {
		return string(link.Loom)
	}
	from, to := a.blockOf[link.From], a.blockOf[link.To]
	if len(link.Way) > 0 || from == 0 || to == 0 {
		key, _ := link.key()
		return key
	}
	return fmt.Sprint(min(from, to), "=", max(from, to))
}

// bundle draws one badge for links that share a way, and reports whether it did: not where there is room for their own, and
// not where there is none for it either.
func (p *Picture) bundle(group []int) bool {
	links, scale := p.arrangement.Scene.Links, p.arrangement.textScale
	size := labelTextSize * scale
	named := group[:min(len(group), mostInBundle)]
	points := p.inView(p.arrangement.paths[group[0]].points)
	if !p.visible(geom.BoxOf(points...)) {
		return false
	}
	singles, width := 0.0, 2*labelEnds*scale
	for _, i := range group {
		singles += p.labelSet(&links[i]).width() + 8*scale
	}
	for _, i := range named {
		width += p.entryWidth(&links[i])
	}
	more := ""
	if len(group) > len(named) {
		more = fmt.Sprintf("+%d", len(group)-len(named))
		width += p.arrangement.measure(more, size, false) + 4*scale
	}
	if geom.Polyline(points).Length() > singles*1.2 {
		return false
	}
	box, found := p.freePlace(points, width, size+10*scale, p.blocked)
	if !found {
		return false
	}
	p.blocked.add(box.Inset(-1))
	p.solidly(box, func() { p.bundleMarks(group, named, box, more) })
	return true
}

func (p *Picture) entryWidth(link *LinkFigure) float64 {
	scale := p.arrangement.textScale
	return p.arrangement.measure(link.Words(p.options.Unit, p.options.Content), labelTextSize*scale, true) + (sampleWidth+12)*scale
}

func (p *Picture) bundleMarks(group, named []int, box geom.Box, more string) {
	links, scale := p.arrangement.Scene.Links, p.arrangement.textScale
	refOf := func(i int) Ref { return Ref{Table: plan.LinksTable, Key: plan.Key(links[i].ID)} }
	edge := rolesOf(links[group[0]].Standing).label
	for _, i := range group {
		if p.options.Selected[refOf(i)] {
			edge = RoleSelected
		}
	}
	p.add(Mark{Ref: refOf(group[0]), Shape: Panel, Role: RoleLabelFill, Edge: edge, Points: []geom.Point{box.Min, box.Max}, Radius: box.Height() / 2})
	left, middle, size := box.Min.X+labelEnds*scale, box.Centre().Y, labelTextSize*scale
	for _, i := range named {
		link, width := &links[i], p.entryWidth(&links[i])
		p.add(Mark{
			Ref: refOf(i), Shape: Stroke, Role: rolesOf(link.Standing).link,
			Points: []geom.Point{{X: left, Y: middle}, {X: left + sampleWidth*scale, Y: middle}},
		})
		p.add(Mark{
			Ref: refOf(i), Shape: Words, Role: RoleLabelText, Points: []geom.Point{{X: left + (sampleWidth+4)*scale, Y: middle}},
			Text: link.Words(p.options.Unit, p.options.Content), Size: size, Bold: true, Anchor: Left,
		})
		p.targets = append(p.targets, target{ref: refOf(i), rank: rankLabel, box: geom.BoxOf(geom.Point{X: left - 2, Y: box.Min.Y}, geom.Point{X: left + width - 2, Y: box.Max.Y})})
		left += width
	}
	if more != "" {
		p.add(Mark{Ref: refOf(group[0]), Shape: Words, Role: RoleLabelText, Points: []geom.Point{{X: left, Y: middle}}, Text: more, Size: size, Anchor: Left})
	}
}

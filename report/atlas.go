package report

import (
	"slices"

	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// atlas is how the plan lies on sheets: which way round, to which scale, and what each sheet shows. One sheet shows the
// whole; a plan that can't be read on one has parts to a larger scale behind it.
type atlas struct {
	format paper.Format
	sheets []planPage
	// unnamed are the links whose label found no place on any sheet, in the order of the scene.
	unnamed []plan.LinkID
}

// planPage is one page of the atlas.
type planPage struct {
	part        int // from 1; 0 is the whole
	denominator int // of the scale 1 : denominator
	picture     *picture.Picture
	of          int     // how many parts there are to a larger scale
	frames      []frame // of the parts that reach into the sheet
}

// scales are the denominators of round scales, the largest drawing first: those of ISO 5455 and of common scale rulers.
var scales = []int{
	50, 75, 100, 125, 200, 250, 300, 400, 500, 750, 1000, 1250, 1500, 2000, 2500, 3000, 4000, 5000, 7500, 10000, 12500,
	20000, 25000, 50000, 100000, 200000,
}

// Sizes of the picture's lettering, in parts of what a screen shows, the largest first. At the smallest the kind of a
// device is still 6.5 points high, the least that this paper sets.
var letterings = []float64{0.9, 0.78, 0.66}

// drawingBorder is what stays free round the drawing, in points.
const drawingBorder = 9.0

// perMetre is how many points a metre of the site is long on paper at a scale.
func perMetre(denominator int) float64 { return 1000 / pointMM / float64(denominator) }

// layout is one way to lay the whole plan on a sheet.
type layout struct {
	format      paper.Format
	denominator int
	lettering   float64
	arrangement *picture.Arrangement
	picture     *picture.Picture
	spare       float64 // how much larger the sheet is than the drawing
}

// cartographer lays out the plan. Arrangements are kept: several sheets ask for the same.
type cartographer struct {
	scene   *picture.Scene
	measure picture.Measure
	view    func(paper.Format) (width, height float64) // the room for the drawing, in points
	grey    bool                                       // colours of tape are written
	known   map[arranged]*picture.Arrangement
	ends    [][2]int
}

type arranged struct {
	denominator int
	lettering   float64
}

func (c *cartographer) arrange(denominator int, lettering float64) *picture.Arrangement {
	key := arranged{denominator, lettering}
	if c.known[key] == nil {
		c.known[key] = picture.Arrange(c.scene, perMetre(denominator), lettering, c.measure)
	}
	return c.known[key]
}

// lay makes the atlas for a sheet of paper.
func (c *cartographer) lay(size paper.Size) *atlas {
	best := c.whole(size)
	a := &atlas{format: best.format, unnamed: best.picture.Unplaced}
	first := planPage{denominator: best.denominator, picture: best.picture}
	if !readable(best, len(c.scene.Links)) {
		if sheets, parts := c.cut(best); len(parts) > 0 {
			first.of, first.frames = len(parts), c.frames(best, best.picture.View, parts, 0)
			first.picture = c.withParts(best, first.frames)
			a.sheets = sheets
			a.unnamed = c.unlabelled(append(sheets, first))
		}
	}
	a.sheets = append([]planPage{first}, a.sheets...)
	return a
}

// readable reports whether devices have boxes and all but a few links have labels.
func readable(l layout, links int) bool {
	return !l.arrangement.Dots && len(l.picture.Unplaced) <= fewOf(links)
}

// fewOf is how many of so many links may be left to the key list: one in thirty.
func fewOf(links int) int { return links / 30 }

// whole lays the whole plan on one sheet: in the largest lettering at which every link has its label, else in that which
// leaves the fewest without; the way round that gives the larger scale, then the one that leaves more room.
func (c *cartographer) whole(size paper.Size) layout {
	var best layout
	for i, lettering := range letterings {
		l := c.fit(paper.Format{Sheet: size, Landscape: true}, lettering)
		if upright := c.fit(paper.Format{Sheet: size}, lettering); better(upright, l) {
			l = upright
		}
		l.picture = c.letter(l, c.middle(l), nil)
		if i == 0 || len(l.picture.Unplaced) < len(best.picture.Unplaced) || best.arrangement.Dots && !l.arrangement.Dots {
			best = l
		}
		if len(best.picture.Unplaced) == 0 && !best.arrangement.Dots {
			break
		}
	}
	return best
}

func better(a, b layout) bool {
	if a.denominator != b.denominator {
		return a.denominator < b.denominator
	}
	return a.spare > b.spare
}

// fit returns the largest round scale at which the drawing has room on a sheet.
func (c *cartographer) fit(format paper.Format, lettering float64) layout {
	lettering *= typeScale(format)
	width, height := c.view(format)
	var l layout
	for _, denominator := range scales {
		a := c.arrange(denominator, lettering)
		bounds := a.Bounds()
		spare := min(width/(bounds.Width()+2*drawingBorder), height/(bounds.Height()+2*drawingBorder))
		l = layout{format: format, denominator: denominator, lettering: lettering, arrangement: a, spare: spare}
		if spare >= 1 {
			break
		}
	}
	return l
}

// middle is the view of a sheet with the whole plan in its middle.
func (c *cartographer) middle(l layout) picture.View {
	width, height := c.view(l.format)
	return l.arrangement.Sheet(l.arrangement.Bounds().Centre(), width, height)
}

// letter draws a layout in a view; labels keep off the numbers of the frames.
func (c *cartographer) letter(l layout, view picture.View, frames []frame) *picture.Picture {
	return picture.Letter(l.arrangement, view, picture.Options{Thorough: true, TapeInWords: c.grey, Clear: tags(frames)})
}

// withParts draws the whole when there are parts: where devices are dots it leaves the labels of links to them.
func (c *cartographer) withParts(whole layout, frames []frame) *picture.Picture {
	o := picture.Options{Thorough: true, TapeInWords: c.grey, Clear: tags(frames), Plain: whole.arrangement.Dots}
	return picture.Letter(whole.arrangement, whole.picture.View, o)
}

// typeScale is how much larger type is set on a format: A3 is read from further away.
func typeScale(format paper.Format) float64 {
	if format.Sheet == paper.A3 {
		return 1.2
	}
	return 1
}

// labelled returns the links that have a label in a picture.
func labelled(p *picture.Picture) map[plan.LinkID]bool {
	found := map[plan.LinkID]bool{}
	for _, m := range p.Marks {
		if m.Role == picture.RoleLabelText {
			found[plan.LinkID(m.Ref.Key)] = true
		}
	}
	return found
}

// unlabelled returns the links of the scene without a label on any of the sheets.
func (c *cartographer) unlabelled(sheets []planPage) []plan.LinkID {
	var missing []plan.LinkID
	seen := map[plan.LinkID]bool{}
	for _, s := range sheets {
		for id := range labelled(s.picture) {
			seen[id] = true
		}
	}
	for _, link := range c.scene.Links {
		if !seen[link.ID] {
			missing = append(missing, link.ID)
		}
	}
	return slices.Clip(missing)
}

package paper

// Clean opens clean to the tests.
func Clean(text string, face Face) (string, []string) {
	p := clean(text, face)
	return p.text, p.sentences()
}

// Wrap, Truncate, Visual and WidthOf open what breaks and measures lines.
var (
	Wrap     = wrap
	Truncate = truncate
	Visual   = visual
	WidthOf  = Face.width
	TrueType = Face.trueType
	Faces    = []Face{Regular, Bold, Oblique, Mono}
)

// MostLines is how many lines a cell has before it is cut.
const MostLines = usualLines

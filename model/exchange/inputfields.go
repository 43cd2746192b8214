package exchange

import (
	"stageloom/model/fields"
	"stageloom/model/plan"
)

// The fields of an input list are called as on the card and in the table; where an input is plugged is the patch's.
var (
	Number   = fields.Of(plan.InputsTable, "number").Name
	Name     = "Name"
	Source   = fields.Of(plan.InputsTable, "source").Name
	Stand    = fields.Of(plan.InputsTable, "stand").Name
	Phantom  = fields.Of(plan.InputsTable, "phantom").Name
	Riser    = fields.Of(plan.InputsTable, "riser").Name
	Use      = fields.Of(plan.InputsTable, "use").Name
	Snake    = fields.Of(plan.InputsTable, "snake").Name
	Box      = "Box"
	Socket   = "Socket"
	SnakeWay = fields.Of(plan.InputsTable, "way").Name
	// Multi and Line have no field in a plan: what such columns say goes into the note.
	Multi = "Multi"
	Line  = "Line"
)

// mostInput is the highest number that an input bears.
const mostInput = 9999

// InputFields are what a column of an input list can mean in any plan; [InputFieldsOf] adds the channels of a plan's consoles.
// In the trade a column headed "Source" is what is on the channel, beside one for its microphone; where another column names
// the input, it is the microphone's.
func InputFields() []Field {
	return []Field{
		{Number, []string{"number", "no", "nr", "#", "input number", "input no", "ch", "channel", "input", "in", "line", "kanal", "voie", "eingang"}, isInputNumber, nil, nil},
		{Name, []string{"name", "instrument", "input name", "input", "channel name", "signal", "description", "what", "source", "instrumente", "nom", "quelle", "signalquelle"}, nil, isCount, nil},
		{Source, []string{"mic", "microphone", "mic di", "mic or di", "mics", "mikrofon", "mikro", "micro", "transducer", "type", "mikrofonierung", "micro di", "source", "quelle", "source or mic"}, nil, nil, nil},
		{Stand, []string{"stand", "stands", "mic stand", "boom", "stativ", "pied"}, nil, nil, nil},
		{Phantom, []string{"48 v", "48v", "48", "phantom", "phantom power", "p48", "phantom 48v", "phantomspeisung", "fantôme"}, isYesOrNo, nil, nil},
		{Riser, []string{"riser", "position", "stage position", "location", "place", "podest", "praticable"}, nil, nil, nil},
		{Use, []string{"use", "type", "signal type", "plugged as", "typ", "art", "genre"}, isUse, nil, nil},
		{Snake, []string{"sub snake", "subsnake", "sub core", "subcore", "stage snake", "drop snake", "snake", "multi snake", "sous multi"}, nil, isYesOrNo, nil},
		{SnakeWay, []string{"snake socket", "sub snake socket", "sub snake way", "snake way", "subsnake way", "subcore way", "sub snake no", "snake no", "snake ch", "snake channel", "sub snake channel"}, isCount, nil, nil},
		{Multi, []string{"multi", "multicore", "multi no", "multi colour", "multi color", "multipaire", "multikabel"}, nil, nil, nil},
		{Line, nil, nil, nil, lineHead},
		{Box, []string{"box", "stage box", "stagebox", "rack", "stage rack", "box name", "bühnenbox", "boîtier", "boîte de scène"}, nil, isYesOrNo, nil},
		{Socket, []string{"socket", "way", "patch", "stage patch", "input patch", "box socket", "box input", "box way", "stage socket", "socket no", "socket number", "box no", "box number", "buchse", "dose", "prise"}, nil, noSocket, nil},
		{Note, []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "anmerkung", "anmerkungen", "remarque", "remarques"}, nil, nil, nil},
	}
}

// lineHead gives points to a head that means the line of a multicore: "Line" alone numbers the inputs where nothing else does.
func lineHead(head string) int {
	switch head {
	case "multi line", "multicore line", "line no", "multi way", "multicore way", "core", "pair", "paire", "ader":
		return wholeWord
	case "line", "ligne", "leitung":
		return wholeWord / 2
	}
	return 0
}

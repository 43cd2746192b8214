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
	// RightSide is the right side of a stereo pair whose left side is the row's.
	RightSide   = fields.Of(plan.InputsTable, "right").Name
	RFChannel   = fields.Of(plan.InputsTable, "rf").Name
	Frequency   = fields.Of(plan.InputsTable, "frequency").Name
	Transmitter = fields.Of(plan.InputsTable, "transmitter").Name
	// Multi and Line are a sub-snake and its way where the plan has them; else what such columns say goes into the note.
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
		{RightSide, []string{"right side", "stereo right", "stereo with", "paired with", "stereo partner", "rechte seite", "côté droit"}, nil, isYesOrNo, nil},
		{RFChannel, []string{"rf channel", "rf ch", "rf", "rf no", "radio channel", "wireless channel", "radio", "wireless", "funkkanal", "funkstrecke", "funk", "hf", "canal hf", "canal"}, nil, isTick, nil},
		{Frequency, []string{"frequency", "freq", "mhz", "frequency mhz", "freq mhz", "rf frequency", "rf freq", "frequenz", "funkfrequenz", "sendefrequenz", "fréquence", "fréquence hf"}, isFrequency, nil, nil},
		{Transmitter, []string{"transmitter", "tx", "handheld", "belt pack", "beltpack", "body pack", "bodypack", "pack", "sender", "handsender", "taschensender", "émetteur"}, nil, isTick, nil},
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

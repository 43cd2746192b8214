package plan

import "fmt"

// Input is a row of the input list. Source is what stands on stage in words; Use is its type, where mic and DI are those whose
// sort nobody told. Phantom tells that it wants 48 V. One with an act belongs to that act's own list and is absent in all
// others. The sub-snake and its way are where it plugs in first; without a stage patch the box socket follows from them. The
// left side of a stereo pair names its right side. An input without a place in the line check takes that of its number.
type Input struct {
	ID          InputID  `json:"id"`
	Number      int      `json:"number" range:"1 9999"`
	Name        string   `json:"name"`
	Act         ActID    `json:"act,omitzero" ref:"acts"`
	Source      string   `json:"source,omitzero"`
	Use         string   `json:"use,omitzero" oneof:"mic DI line condenser dynamic ribbon active_DI passive_DI"`
	Stand       string   `json:"stand,omitzero"`
	Phantom     bool     `json:"phantom_48V,omitzero"`
	Riser       string   `json:"riser,omitzero"`
	Snake       DeviceID `json:"sub_snake,omitzero" ref:"devices"`
	SnakeWay    int      `json:"sub_snake_way,omitzero" range:"0 1024"`
	Right       InputID  `json:"right_side,omitzero" ref:"inputs"`
	RFChannel   string   `json:"RF_channel,omitzero"`
	Frequency   float64  `json:"frequency_MHz,omitzero" range:"0 10000"`
	Transmitter string   `json:"transmitter,omitzero"`
	CheckOrder  int      `json:"line_check_order,omitzero" range:"0 9999"`
	Note        string   `json:"note,omitzero" long:"true"`
}

// Key is the input's id.
func (r Input) Key() Key { return Key(r.ID) }

// Output is a row of the output list: a mix or bus of a console and what it feeds. The left side of a stereo pair names its
// right side.
type Output struct {
	ID        OutputID `json:"id"`
	Number    int      `json:"number" range:"1 9999"`
	Name      string   `json:"name"`
	Mix       string   `json:"mix,omitzero"`
	Kind      string   `json:"output_kind,omitzero" oneof:"main sub delay fill wedge side_fill in_ear record feed"`
	Right     OutputID `json:"right_side,omitzero" ref:"outputs"`
	RFChannel string   `json:"RF_channel,omitzero"`
	Frequency float64  `json:"frequency_MHz,omitzero" range:"0 10000"`
	Pack      string   `json:"in_ear_pack,omitzero"`
	Note      string   `json:"note,omitzero" long:"true"`
}

// Key is the output's id.
func (r Output) Key() Key { return Key(r.ID) }

// Act is what changes between bands. Act 0, the house patch, needs no row: patch rows with a blank act are its.
// Its line check goes by number, by area (the riser) or by hand (each input's place), from a time on, so many seconds an input.
type Act struct {
	ID           ActID  `json:"id"`
	Name         string `json:"name"`
	Order        int    `json:"order" range:"1 999"`
	Stage        string `json:"stage,omitzero"`
	Start        string `json:"start,omitzero"`
	End          string `json:"end,omitzero"`
	CheckBy      string `json:"line_check_by,omitzero" oneof:"area hand"`
	CheckStart   string `json:"line_check_start,omitzero"`
	CheckSeconds int    `json:"line_check_seconds,omitzero" range:"0 3600"`
	Note         string `json:"note,omitzero" long:"true"`
}

// Key is the act's id.
func (r Act) Key() Key { return Key(r.ID) }

// StagePatch puts an input on a socket in one act; an act stores only what differs from the house patch.
type StagePatch struct {
	Act    ActID    `json:"act,omitzero" ref:"acts"`
	Input  InputID  `json:"input" ref:"inputs"`
	Device DeviceID `json:"device,omitzero" ref:"devices"`
	Socket int      `json:"socket,omitzero" range:"0 1024"`
	Strike bool     `json:"strike,omitzero"`
}

// Key is act and input.
func (r StagePatch) Key() Key { return Key(string(r.Act) + "/" + string(r.Input)) }

// ConsolePatch puts a socket of a device on a channel of a console in one act.
type ConsolePatch struct {
	Act     ActID    `json:"act,omitzero" ref:"acts"`
	Console DeviceID `json:"console" ref:"devices"`
	Channel int      `json:"channel" range:"1 1024"`
	Device  DeviceID `json:"device,omitzero" ref:"devices"`
	Socket  int      `json:"socket,omitzero" range:"0 1024"`
	Strike  bool     `json:"strike,omitzero"`
}

// Key is act, console and channel.
func (r ConsolePatch) Key() Key {
	return Key(fmt.Sprintf("%s/%s/%04d", r.Act, r.Console, r.Channel))
}

// SlotPatch puts a socket on a slot of a link in one act. Forward runs from the link's near end to its far end. The socket
// is an input of the device, whose signal the slot carries away, or an output that the slot feeds. A use without a socket
// keeps the slot for something that has none. A backup carries the slots of its main link and needs no rows.
type SlotPatch struct {
	Act       ActID    `json:"act,omitzero" ref:"acts"`
	Link      LinkID   `json:"link" ref:"links"`
	Direction string   `json:"direction" oneof:"forward return"`
	Slot      int      `json:"slot" range:"1 1024"`
	Device    DeviceID `json:"device,omitzero" ref:"devices"`
	Socket    int      `json:"socket,omitzero" range:"0 1024"`
	Output    bool     `json:"output,omitzero"`
	Use       string   `json:"use,omitzero" oneof:"talkback timecode reserved"`
	Strike    bool     `json:"strike,omitzero"`
}

// Key is act, link, direction and slot.
func (r SlotPatch) Key() Key {
	return Key(fmt.Sprintf("%s/%s/%s/%04d", r.Act, r.Link, r.Direction, r.Slot))
}

// OutputPatch takes an output from a console to an output socket of a device in one act.
type OutputPatch struct {
	Act     ActID    `json:"act,omitzero" ref:"acts"`
	Output  OutputID `json:"output" ref:"outputs"`
	Console DeviceID `json:"console,omitzero" ref:"devices"`
	Device  DeviceID `json:"device,omitzero" ref:"devices"`
	Socket  int      `json:"socket,omitzero" range:"0 1024"`
	Strike  bool     `json:"strike,omitzero"`
}

// Key is act and output.
func (r OutputPatch) Key() Key { return Key(string(r.Act) + "/" + string(r.Output)) }

// ActConsole is a guest console of an act: it is there in no act that does not name it. Its port plugs into a port of a
// drop for that act; the link behind the drop is the plan's.
type ActConsole struct {
	Act      ActID       `json:"act" ref:"acts"`
	Console  DeviceID    `json:"console" ref:"devices"`
	Port     string      `json:"port,omitzero"`
	Drop     DeviceID    `json:"drop,omitzero" ref:"devices"`
	DropPort string      `json:"drop_port,omitzero"`
	TailKind CableKindID `json:"tail_kind,omitzero" ref:"cable_kinds"`
	Tail     float64     `json:"tail_m,omitzero" range:"0 1000"`
	Note     string      `json:"note,omitzero" long:"true"`
}

// Key is act, console and the console's port.
func (r ActConsole) Key() Key { return Key(fmt.Sprintf("%s/%s/%s", r.Act, r.Console, r.Port)) }

// SocketOwner says who sets the gain of an input socket and who switches its 48 V in one act. A blank owner is the house
// patch's; with strike, nobody is named.
type SocketOwner struct {
	Act     ActID    `json:"act,omitzero" ref:"acts"`
	Device  DeviceID `json:"device" ref:"devices"`
	Socket  int      `json:"socket" range:"1 1024"`
	Gain    DeviceID `json:"gain_owner,omitzero" ref:"devices"`
	Phantom DeviceID `json:"phantom_owner,omitzero" ref:"devices"`
	Strike  bool     `json:"strike,omitzero"`
}

// Key is act, device and socket.
func (r SocketOwner) Key() Key { return Key(fmt.Sprintf("%s/%s/%04d", r.Act, r.Device, r.Socket)) }

// SocketName is what the other party calls a socket of ours: the number or word on their box, list or drawing.
type SocketName struct {
	Device    DeviceID `json:"device" ref:"devices"`
	Direction string   `json:"direction" oneof:"in out"`
	Socket    int      `json:"socket" range:"1 1024"`
	Name      string   `json:"name"`
}

// Key is device, direction and socket.
func (r SocketName) Key() Key { return Key(fmt.Sprintf("%s/%s/%04d", r.Device, r.Direction, r.Socket)) }

// LineCheck is what was heard of an input in one act at a time. What is not OK stays a fault until it is cleared. Times are
// dates and times of day with their offset, as in RFC 3339. Chain is the way that the input had when it was heard, as it was
// called out then.
type LineCheck struct {
	Act     ActID   `json:"act,omitzero" ref:"acts"`
	Input   InputID `json:"input" ref:"inputs"`
	At      string  `json:"at"`
	Result  string  `json:"result" oneof:"OK dead noisy wrong"`
	Cleared string  `json:"cleared,omitzero"`
	Note    string  `json:"note,omitzero" long:"true"`
	Chain   string  `json:"chain,omitzero" long:"true"`
}

// Key is act, input and time.
func (r LineCheck) Key() Key { return Key(fmt.Sprintf("%s/%s/%s", r.Act, r.Input, r.At)) }

// Revision is one issued state of the plan. Changes is the Delta from the revision before it, in the file's
// own form; the first revision holds the whole plan. Revisions are never rewritten.
type Revision struct {
	Number  int    `json:"number" range:"1 999"`
	Letter  string `json:"letter"`
	Date    string `json:"date,omitzero"`
	Note    string `json:"note,omitzero" long:"true"`
	Changes string `json:"changes,omitzero" delta:"true"`
}

// Key is the revision's number.
func (r Revision) Key() Key { return Key(fmt.Sprintf("%04d", r.Number)) }

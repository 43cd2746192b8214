package plan

import "fmt"

// Input is a row of the input list.
type Input struct {
	ID      InputID `json:"id"`
	Number  int     `json:"number" range:"1 9999"`
	Name    string  `json:"name"`
	Source  string  `json:"source,omitzero"`
	Stand   string  `json:"stand,omitzero"`
	Phantom bool    `json:"phantom_48V,omitzero"`
	Riser   string  `json:"riser,omitzero"`
	Note    string  `json:"note,omitzero" long:"true"`
}

// Key is the input's id.
func (r Input) Key() Key { return Key(r.ID) }

// Output is a row of the output list.
type Output struct {
	ID     OutputID `json:"id"`
	Number int      `json:"number" range:"1 9999"`
	Name   string   `json:"name"`
	Note   string   `json:"note,omitzero" long:"true"`
}

// Key is the output's id.
func (r Output) Key() Key { return Key(r.ID) }

// Act is what changes between bands. Act 0, the house patch, needs no row: patch rows with a blank act are its.
type Act struct {
	ID    ActID  `json:"id"`
	Name  string `json:"name"`
	Order int    `json:"order" range:"1 999"`
	Stage string `json:"stage,omitzero"`
	Start string `json:"start,omitzero"`
	End   string `json:"end,omitzero"`
	Note  string `json:"note,omitzero" long:"true"`
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

// SlotPatch puts a socket on a slot of a link in one act. Forward runs from the link's near end to its far end.
type SlotPatch struct {
	Act       ActID    `json:"act,omitzero" ref:"acts"`
	Link      LinkID   `json:"link" ref:"links"`
	Direction string   `json:"direction" oneof:"forward return"`
	Slot      int      `json:"slot" range:"1 1024"`
	Device    DeviceID `json:"device,omitzero" ref:"devices"`
	Socket    int      `json:"socket,omitzero" range:"0 1024"`
	Strike    bool     `json:"strike,omitzero"`
}

// Key is act, link, direction and slot.
func (r SlotPatch) Key() Key {
	return Key(fmt.Sprintf("%s/%s/%s/%04d", r.Act, r.Link, r.Direction, r.Slot))
}

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

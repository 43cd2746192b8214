// Package patch resolves a plan's patch: for each act and input the way from the stage over sub-snake, splitter, box
// socket and slots to the channels of the consoles. It also holds the edits of a patch.
//
// A View is immutable. Act 0, the house, is always there; an act stores only what differs from it, a blank inherits, and
// strike takes away. Links belong to the plan, never to an act; slots stand in the plan once they are given out, so that
// nothing that is added later renumbers them.
package patch

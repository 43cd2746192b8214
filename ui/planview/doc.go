// Package planview is the plan on screen: one widget that shows an assessed plan to scale and works on it with
// pointer and keys.
//
// It paints a base image of what stands still, larger than the widget by a margin, so that panning only copies;
// what moves under the pointer is painted on top of that copy. Gestures are tool's; marks are picture's.
package planview

// Package tool turns pointer and key events on the plan into gestures, without a window: what a press, a move
// and a release mean, what is shown meanwhile, and the one named edit at the end. Escape gives a gesture up as
// if nothing had happened.
package tool

// Package medium is the seam between a loss budget and what a link runs through. A [Medium] says what its cables, joints and
// tails lose, at which reference its decibels are taken and in which words that is told; a budget, picking, checks, pages and
// the window ask it and know no medium by name.
//
// The rows of a medium, its transports, limit rules and hardware, lie in package standards ([standards.Hold]); what it
// reckons is registered here ([Register]). The balanced pair is the first.
package medium

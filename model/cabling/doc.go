// Package cabling picks cables for the links of a plan: it puts the plan as a problem to the optimiser, turns the answer
// into a comparison of now and proposed, and that into one edit.
//
// Nothing here reckons a decibel: every loss comes from package budget, part by part, rounded upwards to thousandths of a
// dB, and limits downwards, so that nothing is picked that the plan's own budget calls over. Lengths go in millimetres.
//
// Also here: what can replace a cable, and the order in which the cables of a
// run are laid.
package cabling

// Package supply picks cables for a plan from the show's stock, from what the house could lend, or from both: it looks at a copy
// of the plan with the house's cables beside its own, lets cabling pick there, and makes one edit of what came of it.
package supply

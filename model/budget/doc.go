// Package budget reckons the links of a plan: how long each run is, what its cables lose, and how much of the limit is
// left in hand.
//
// A Budget is an outlook: metres that the cables of a link do not reach are reckoned as one more cable of the link's
// wanted kind and one more coupler, marked as assumed, so that grades follow while something is dragged. Whole cables
// count, laid out or coiled. What parts lose, and at which reference, is asked of the link's medium; the
// margin there is the verdict, and all else is Advice, reckoned on demand.
//
// Margins are rounded downwards wherever they are shown, losses and missing metres upwards, so that no rounding makes a
// link look better than it is. Lengths are in metres, losses and margins in dB at the medium's reference unless a
// name says otherwise.
package budget

// Package picking chooses for each link of a show which reels make it, and
// proves that no choice is better.
//
// # The problem
//
// For every link l choose a pattern p: a multiset of at most MaxReels reels,
// or none at all. A pattern is long enough when the lengths of its reels
// reach the link's need; it stands when some order of its reels fits end to
// end and, in that order, at every frequency with a limit,
//
//	Σ loss(l, reel) + Σ joint(reel, next reel) + what it meets at either end ≤ limit(l)
//
// With x(l,p) = 1 for the pattern chosen and a(p,j) the reels of line j in it:
//
//	minimise   c1·x, then c2·x, …     one objective after the other
//	subject to Σp x(l,p) = 1          for every link l
//	           Σl Σp a(p,j)·x(l,p) ≤ count(j)   for every line j of the stock
//	           main of a kind + backup of that kind ≤ 1, where kinds must differ
//
// The objectives, each an integer sum over links, are those of Objectives.
// Only patterns count that need all their reels: dropping any leaves them too
// short, unfit, or under the wanted margin. A pattern with a needless reel is
// never better, except where changes go before joins; then it may keep what the
// link had before.
//
// # The way
//
// Objectives are taken one by one. For each, a linear program over all patterns
// (simplex.go) gives duals, the duals a bound that holds in whole numbers
// whatever the float arithmetic did (bound.go), and rounding an answer
// (round.go). Patterns that no answer as good can use are dropped, and what
// gap is left is closed by branch and bound (search.go). A proved objective
// becomes a constraint for those after it (pick.go).
//
// # Units
//
// Lengths are whole decimetres or whatever unit the caller chose for all of
// them; losses whole thousandths of a dB, rounded up, limits down. Float sums
// would flip links that are exactly at their limit.
package picking

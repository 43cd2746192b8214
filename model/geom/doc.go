// Package geom holds points, straight lines, polylines and boxes on the ground
// of a site. Every coordinate and every length is in metres; x grows to the
// right and y grows UP, towards the top of the page. Screen and paper flip y.
//
// Functions take finite numbers. NaN and infinities are refused where input
// enters the program (the reader of the plan file, the reader of quantities),
// not here; [Point.Finite] is what those readers ask.
package geom

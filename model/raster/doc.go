// Package raster paints lines, boxes, pictures and lettering on an *image.RGBA, in pure Go: for the window and for the
// proof of a page alike. It knows neither.
//
// A [Drawing] records calls and then paints them, in the order in which they were made, in horizontal bands that run
// side by side and are done when the call returns. Lengths are in units of the drawing; Scale says how many pixels
// make one unit. The origin is the top left corner, x grows to the right and y downwards; pixel (0, 0) covers 0…1.
//
// Coverage is reckoned exactly, in whole numbers of 1/256 pixel, so that a picture does not depend on the number of
// bands nor on the part of it that is painted. Coordinates that are not numbers are left out; none makes it panic.
package raster

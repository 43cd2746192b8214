// Package look gives the screen its looks: three palettes, fyne's theme made compact, and the table that turns a
// role of the picture into colour, width and dash. The grades' hues are of the Okabe-Ito palette, safe for
// colour-blind eyes (published: Okabe and Ito, Color Universal Design, 2002), darkened where too light on white;
// line and badge tell the grade without them.
package look

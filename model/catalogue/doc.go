// Package catalogue holds the built-in kinds of devices and cables as plan rows, and copies those a plan uses into it.
//
// A kind is "n in, m out" with its ports. The figures are free round numbers of the trade; they describe no maker's
// product. A plan keeps its own copy of each kind it uses, so it reads the same on every machine and edition.
package catalogue

// Package ahead finds an option of a list by the letters that are typed one after the other.
package ahead

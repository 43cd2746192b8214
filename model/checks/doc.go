// Package checks finds what is wrong, risky or worth knowing in a plan. A rule is a small pure function that names the
// tables it reads, so that it runs again only where one of them has changed.
//
// A finding says what is so and what would cure it in words for a crew; its severity says whether the show can start.
// Findings are never errors: a bad plan is a plan with findings.
package checks

// Package assess holds everything reckoned from one plan: budgets, totals, findings. An Assessment is immutable; paper,
// picture and screen take theirs from it, so that all of them say the same.
//
// Next reckons anew only what reads a changed table and always equals Of.
package assess

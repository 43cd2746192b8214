// Package report prints an assessed plan: the plan to a round scale, the cable
// schedule for the crew, the link budget, the findings, the cautions and
// assumptions. Each chapter has a file of its own and sees only the assessment,
// the choice and a paper.Book. The same plan, choice and date give the same
// bytes.
package report

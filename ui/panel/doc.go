// Package panel holds what stands round the plan: the line that tells the whole plan, the card about the
// selection, the list of the history. What a panel says is reckoned without fyne, so that it tests as text; the
// widgets only set it.
package panel

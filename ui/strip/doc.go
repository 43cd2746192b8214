// Package strip draws the run strip: the run of one link pulled straight from end to end, every cable to scale with
// its tag and kind, what joins them between, and above it the loss mounting along the run towards the limit, with what
// is left at the far end. It shows at a glance where the loss goes and what to swap.
//
// [Of] says what there is to show, [LayOut] where it goes, [Layout.Draw] draws it; none of the three needs a window.
package strip

package goldentest

// Accept sets the flag for one test and returns what sets it back.
func Accept(wanted bool) (back func()) {
	before := *accept
	*accept = wanted
	return func() { *accept = before }
}

package budget

// The standings beside the grades: what is so now, where the grade is how it would be.
const (
	// ToTest: the line has its margin, and is longer than its transport's stated distance; nobody answers for it there until
	// it was tested under the show's load.
	ToTest Grade = "to be tested"
	// Faulty: a cable of the line is marked faulty.
	Faulty Grade = "faulty"
	// ToLay: the line would have its margin once the metres are laid that are missing.
	ToLay Grade = "to lay"
)

// Standings lists how a link with a budget can stand, best first.
func Standings() []Grade {
	return []Grade{Ample, Enough, ToTest, Tight, Over, Faulty, ToLay, Uncabled}
}

// Standing is how a link stands as it lies: nothing is ample or enough that could not carry a signal now. What is over or
// tight once laid is told as that already.
func (b Budget) Standing() Grade {
	switch {
	case b.Grade == Ungraded || b.Grade == Uncabled || b.Grade == Over:
		return b.Grade
	case b.lineFaulty():
		return Faulty
	case b.Grade == Tight:
		return Tight
	case !b.Holds():
		return ToLay
	case b.ToBeTested():
		return ToTest
	}
	return b.Grade
}

// Holds reports whether the grade is that of what lies: no metre is missing in the whole line, and none of its cables is faulty.
func (b Budget) Holds() bool {
	if b.Whole != nil {
		return b.Whole.Missing == 0 && !b.Whole.Faulty && !b.Whole.Lacking
	}
	return b.Missing == 0 && b.Length() > 0 && !b.Faulty
}

func (b Budget) lineFaulty() bool { return b.Faulty || b.Whole != nil && b.Whole.Faulty }

// ToBeTested tells that a line has its margin and is longer than its transport's stated distance, and was not tested.
func (b Budget) ToBeTested() bool {
	tested := b.Tested
	if b.Whole != nil {
		tested = !b.Whole.Untested
	}
	return (b.Grade == Ample || b.Grade == Enough) && b.PastDistance() && !tested
}

package plan

// signsOfIdentity is so long that no two plans in the world get the same: some 97 bits.
const signsOfIdentity = 20

// Identity returns what a plan can be known by that no other plan is. It is drawn apart from the ids of rows, which are the
// same whether or not one was wanted.
func (s *IDSource) Identity() string {
	signs := [signsOfIdentity]byte{}
	for i := range signs {
		signs[i] = Signs[s.identities.IntN(len(Signs))]
	}
	return string(signs[:])
}

// WithIdentity is the plan under another identity, and the same in all else.
func (p *Plan) WithIdentity(identity string) *Plan {
	if p.Settings.Identity == identity {
		return p
	}
	next := *p
	next.Settings.Identity = identity
	return &next
}

// longestWhy is how many signs of the reason stand in a row; the house says it in full.
const longestWhy = 400

// WithLacking is the plan with what the house's stock does not let it have, row by row: how many, and where they are. That is
// what the house says and no edit; where nothing is otherwise the plan is returned itself.
func (p *Plan) WithLacking(lacks func(Reel) (count int, why string)) *Plan {
	e := NewEdit(p, nil)
	changed := false
	for row := range p.Reels.All() {
		was := row
		row.Lacking, row.LackingWhy = lacks(row)
		row.LackingWhy = ClippedTo(row.LackingWhy, longestWhy)
		if row != was {
			Put(e, row)
			changed = true
		}
	}
	if !changed {
		return p
	}
	next, err := e.commit()
	if err != nil { // rows that stood, with a count and words in their bounds
		return p
	}
	return next
}

// WithoutLacking is the plan as its own edits made it, whatever the house's stock lets it have.
func (p *Plan) WithoutLacking() *Plan {
	return p.WithLacking(func(Reel) (int, string) { return 0, "" })
}

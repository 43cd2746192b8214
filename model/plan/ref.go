package plan

// Ref names a row of a plan; Part tells which piece of it, where there are pieces (a port's name).
type Ref struct {
	Table string
	Key   Key
	Part  string
}

// RefOf returns the reference to a row.
func RefOf[R Row](row R) Ref { return Ref{Table: infoOf[R]().Name, Key: row.Key()} }

// Exists reports whether the plan holds the row.
func (r Ref) Exists(p *Plan) bool {
	table, found := TableNamed(r.Table)
	return found && table.Has(p, r.Key)
}

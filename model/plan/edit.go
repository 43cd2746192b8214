package plan

import (
	"errors"
	"fmt"
	"reflect"
)

// Edit builds the next plan from one. It is used by one goroutine and once.
type Edit struct {
	base *Plan
	next Plan
	ids  *IDSource
	// said are links of which this edit itself says what is done on site.
	said map[LinkID]bool
}

// NewEdit begins an edit. ids may be nil when the edit adds no row that needs a new id.
func NewEdit(p *Plan, ids *IDSource) *Edit { return &Edit{base: p, next: *p, ids: ids} }

// Do runs one edit and commits it: the plan after it, or the reason why not.
func Do(p *Plan, ids *IDSource, edit func(*Edit) error) (*Plan, error) {
	e := NewEdit(p, ids)
	if err := edit(e); err != nil {
		return nil, err
	}
	return e.Commit()
}

// Now is the plan as edited so far. Read it inside the edit only; it changes with the next Put or Drop.
func (e *Edit) Now() *Plan { return &e.next }

// SetSettings replaces the plan's settings.
func (e *Edit) SetSettings(s Settings) { e.next.Settings = normal(s) }

// Put adds or replaces a row.
func Put[R Row](e *Edit, row R) { opsOf[R]().work(e).put(normal(row)) }

// Drop removes the row with this key and reports whether there was one. Rows that refer to it must go or be
// changed in the same edit; the semantic edits (RemoveDevice …) see to that.
func Drop[R Row](e *Edit, key Key) bool { return opsOf[R]().work(e).drop(key) }

// Commit takes back what is no longer true of work on site, doubts typed lengths whose ends moved, checks what changed and
// returns the next plan, or *Invalid with every reason. A link is refused a name that stood for another on an issued revision.
// Metres are rounded to 1 mm, so that a plan loads exactly as it was saved.
func (e *Edit) Commit() (*Plan, error) {
	if err := e.refuseRetired(); err != nil {
		return nil, err
	}
	e.settleDone()
	e.settleTyped()
	return e.commit()
}

// commit is Commit of rows that stood in a plan together before.
func (e *Edit) commit() (*Plan, error) {
	next := e.next
	for _, table := range tables {
		table.ops.freeze(&next)
	}
	restoreIdentity(e.base, &next)
	if problems := checkChange(e.base, &next); len(problems) > 0 {
		return nil, &Invalid{Problems: problems}
	}
	return &next, nil
}

// restoreIdentity gives a touched table that ends as it began its old identity, so that nothing is reckoned anew.
func restoreIdentity(base, next *Plan) {
	for _, table := range tables {
		if !table.Same(base, next) && table.equal(base, next) {
			table.ops.share(base, next)
		}
	}
}

func infoOf[R Row]() *TableInfo {
	table, found := tableOfType[reflect.TypeFor[R]()]
	if !found {
		panic(fmt.Sprintf("plan: %v is a row of no table", reflect.TypeFor[R]()))
	}
	return table
}

func opsOf[R Row]() typedOps[R] { return infoOf[R]().ops.(typedOps[R]) }

var tableOfType = func() map[reflect.Type]*TableInfo {
	byType := map[reflect.Type]*TableInfo{}
	for _, table := range tables {
		byType[table.RowType] = table
	}
	return byType
}()

// newID returns a new id for the table of R.
func newID[R Row](e *Edit) string {
	if e.ids == nil {
		panic("plan: this edit was begun without a source of ids")
	}
	table := infoOf[R]()
	return e.ids.Next(table.Letter, func(id string) bool { return table.Has(&e.next, Key(id)) })
}

// ErrRefused is wrapped by every refusal of an edit.
var ErrRefused = errors.New("not changed")

func refuse(format string, details ...any) error {
	return fmt.Errorf("%w: %s", ErrRefused, fmt.Sprintf(format, details...))
}

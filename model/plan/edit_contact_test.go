package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestContactsKeepTheOrderTheyAreGiven(t *testing.T) {
	ids := plan.NewIDSource(3, 4)
	p := plan.New("Contacts")
	set := func(names ...string) {
		t.Helper()
		var contacts []plan.Contact
		for _, name := range names {
			contacts = append(contacts, plan.Contact{Name: name})
		}
		next, err := plan.Do(p, ids, func(e *plan.Edit) error { e.SetContacts(contacts); return nil })
		require.NoError(t, err)
		p = next
		var got []string
		for contact := range p.Contacts.All() {
			got = append(got, contact.Name)
		}
		require.Equal(t, names, got)
	}
	set("Stage manager", "House engineer", "Electrician", "Rigger", "Runner")
	set("House engineer", "New one", "Electrician", "Rigger", "Runner", "Another", "A third")
	set("Rigger")
	set()
}

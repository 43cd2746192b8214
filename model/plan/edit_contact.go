package plan

import "slices"

// SetContacts makes these the contacts of the plan, in their order; the contacts' own ids are not looked at.
func (e *Edit) SetContacts(contacts []Contact) {
	var ids []ContactID
	for row := range e.next.Contacts.All() {
		ids = append(ids, row.ID)
	}
	for _, id := range ids[min(len(contacts), len(ids)):] {
		Drop[Contact](e, Key(id))
	}
	ids = ids[:min(len(contacts), len(ids))]
	for len(ids) < len(contacts) {
		id := ContactID(newID[Contact](e))
		Put(e, Contact{ID: id, Name: contacts[len(ids)].Name}) // so that the next id is another
		ids = append(ids, id)
	}
	slices.Sort(ids) // rows stand in the order of their ids
	for i, row := range contacts {
		row.ID = ids[i]
		Put(e, row)
	}
}

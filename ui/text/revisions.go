package text

import (
	"stageloom/model/assess"
	"stageloom/model/revision"
	"stageloom/model/words"
)

// Revisions is what the window says of the revisions of a plan, in the words of the front page.
type Revisions struct {
	// Standing says how the plan stands to them.
	Standing string
	// Heading, Lead and Changes tell what changed since the last one.
	Heading, Lead string
	Changes       []string
	// Issued lists them, the first one first.
	Issued []string
}

// RevisionsOf says how a plan stands to its revisions, in the units of the window. It fails where the revisions of the file
// don't fit each other.
func RevisionsOf(a *assess.Assessment, units words.Units) (Revisions, error) {
	since, err := revision.SinceLast(a, units.Length)
	if err != nil {
		return Revisions{}, err
	}
	said := Revisions{
		Standing: revision.StandingOf(a.Plan).Sentence(), Heading: since.Heading(), Lead: since.Lead(), Issued: revision.Issues(a.Plan),
	}
	if since != nil {
		said.Changes = since.Lines(len(since.Changes))
	}
	return said, nil
}

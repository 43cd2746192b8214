package settings

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"
)

// mostLists is of how many lists the columns are kept, the latest first.
const mostLists = 40

const keyLists = "columns of lists"

// ListColumns is what the user last said that the columns of a list mean, by its heads; not found where nothing was said, or
// what was kept makes no sense.
func (s *Settings) ListColumns(heads string) (fields []string, found bool) {
	for _, entry := range s.kept.StringList(keyLists) {
		if named, kept := readList(entry); named == listName(heads) {
			return kept, true
		}
	}
	return nil, false
}

// SetListColumns keeps what the columns of a list mean. Of its heads it keeps a digest: what lists say stays in their files.
func (s *Settings) SetListColumns(heads string, fields []string) {
	name := listName(heads)
	lists := slices.DeleteFunc(slices.Clone(s.kept.StringList(keyLists)), func(entry string) bool {
		other, _ := readList(entry)
		return other == name || other == ""
	})
	entry, _ := json.Marshal(append([]string{name}, fields...)) // texts alone are always written
	lists = slices.Insert(lists, 0, string(entry))
	s.kept.SetStringList(keyLists, lists[:min(len(lists), mostLists)])
}

// readList reads an entry: the name of a list and what its columns mean; blank for what is none.
func readList(entry string) (name string, fields []string) {
	var parts []string
	if err := json.Unmarshal([]byte(entry), &parts); err != nil || len(parts) == 0 {
		return "", nil
	}
	return parts[0], parts[1:]
}

func listName(heads string) string {
	digest := sha256.Sum256([]byte(heads))
	return hex.EncodeToString(digest[:12])
}

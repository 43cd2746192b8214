package atomicfile

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// owned is what a system with users knows of a file.
type owned struct{ owner, group, links int }

// keepOwner gives the new file the group and the owner of the old one, where that is permitted, and returns the mode
// that fits: who is in the group that it got instead may do no more than everybody.
func (s *saving) keepOwner(mode fs.FileMode) fs.FileMode {
	old, known := ownedOf(s.old)
	if !known {
		return mode
	}
	name := filepath.Base(s.target)
	if old.links > 1 {
		s.lost = append(s.lost, fmt.Sprintf("%s was one of %d names of one file; it is a file of its own now, and the other names keep what was saved before", name, old.links))
	}
	made, err := os.Lstat(s.temporary)
	if err != nil {
		return mode // a disk of a test
	}
	now, known := ownedOf(made)
	if !known {
		return mode
	}
	if now.group != old.group && s.file.Chown(-1, old.group) != nil {
		s.lost = append(s.lost, fmt.Sprintf("%s could not keep its group (%s), whose members may not write it any more: give it back with chgrp, or let its owner save", name, groupName(old.group)))
		mode = mode&^0o070 | mode&0o007<<3
	}
	if now.owner != old.owner && s.file.Chown(old.owner, -1) != nil {
		s.lost = append(s.lost, fmt.Sprintf("%s belongs to you now, no longer to %s", name, userName(old.owner)))
	}
	return mode
}

// tell says what was lost, once the new file stands.
func (s *saving) tell() {
	if s.ops.Tell == nil {
		return
	}
	for _, sentence := range s.lost {
		s.ops.Tell(sentence)
	}
}

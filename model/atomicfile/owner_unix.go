//go:build unix

package atomicfile

import (
	"io/fs"
	"os/user"
	"strconv"
	"syscall"
)

func ownedOf(info fs.FileInfo) (owned, bool) {
	stat, known := info.Sys().(*syscall.Stat_t)
	if !known {
		return owned{}, false
	}
	return owned{owner: int(stat.Uid), group: int(stat.Gid), links: int(stat.Nlink)}, true
}

// groupName is the group in words, or its number where it has no name.
func groupName(number int) string {
	if group, err := user.LookupGroupId(strconv.Itoa(number)); err == nil {
		return group.Name
	}
	return strconv.Itoa(number)
}

func userName(number int) string {
	if who, err := user.LookupId(strconv.Itoa(number)); err == nil {
		return who.Username
	}
	return "user " + strconv.Itoa(number)
}

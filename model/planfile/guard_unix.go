//go:build unix

package planfile

import (
	"io/fs"
	"os"
	"syscall"
)

// guardFlags follow no link and wait for nobody at a pipe.
const guardFlags = os.O_CREATE | syscall.O_NOFOLLOW | syscall.O_NONBLOCK

// names is how many names a file has.
func names(info fs.FileInfo) int {
	stat, known := info.Sys().(*syscall.Stat_t)
	if !known {
		return 1
	}
	return int(stat.Nlink)
}

package archive

import (
	"io/fs"
	"syscall"
)

// fill adds what no program can set back: the time of the last change of any
// kind, and the file's number.
func (m *mark) fill(info fs.FileInfo) {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		m.Changed, m.Inode = s.Ctim.Nano(), s.Ino
	}
}

package wholefile

import "golang.org/x/sys/unix"

// renameNew renames unless the new name is taken. Not every file system can.
func renameNew(from, to string) error {
	return unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, unix.RENAME_NOREPLACE)
}

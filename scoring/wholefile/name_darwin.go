package wholefile

import "golang.org/x/sys/unix"

// renameNew renames unless the new name is taken. Not every file system can.
func renameNew(from, to string) error { return unix.RenamexNp(from, to, unix.RENAME_EXCL) }

package wholefile

import "golang.org/x/sys/windows"

// renameNew renames unless the new name is taken.
func renameNew(from, to string) error {
	f, err := windows.UTF16PtrFromString(from)
	if err != nil {
		return err
	}
	t, err := windows.UTF16PtrFromString(to)
	if err != nil {
		return err
	}
	return patiently(func() error { return windows.MoveFileEx(f, t, windows.MOVEFILE_WRITE_THROUGH) })
}

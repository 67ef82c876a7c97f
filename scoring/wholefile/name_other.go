//go:build !linux && !darwin && !windows

package wholefile

import "errors"

func renameNew(string, string) error { return errors.ErrUnsupported }

//go:build windows || js

package wholefile

import (
	"errors"
	"os"
)

// lockAlone locks nothing: no system here needs an empty file to keep a name.
func lockAlone(*os.File) error { return errors.ErrUnsupported }

package exporttest

import (
	"syscall"
	"testing"
)

// asNobody skips: on Windows no server is tried.
func asNobody(t *testing.T, _ string) *syscall.SysProcAttr {
	t.Helper()
	SkipWithout(t, "PostgreSQL is tried on other systems")
	return nil
}

//go:build unix

package exporttest

import (
	"os"
	"os/user"
	"strconv"
	"syscall"
	"testing"
)

// asNobody hands dir to an ordinary user where the test runs as the
// administrator, whom the server refuses.
func asNobody(t *testing.T, dir string) *syscall.SysProcAttr {
	t.Helper()
	if os.Geteuid() != 0 {
		return nil
	}
	u, err := user.Lookup("nobody")
	if err != nil {
		SkipWithout(t, "there is no ordinary user to run PostgreSQL as")
	}
	uid, _ := strconv.Atoi(u.Uid)
	gid, _ := strconv.Atoi(u.Gid)
	if err := os.Chown(dir, uid, gid); err != nil {
		t.Fatal(err)
	}
	return &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
}

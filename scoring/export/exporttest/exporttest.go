//go:build unix

// Package exporttest runs programs that are no part of this project for its tests:
// readers and databases that check what is handed over.
package exporttest

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Program finds a program that is no part of this project. Without it a test
// says so and is skipped; in CI, which installs them, that is a failure.
func Program(t *testing.T, names ...string) string {
	t.Helper()
	for _, name := range names {
		found, _ := filepath.Glob(name)
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
		if len(found) > 0 {
			return found[len(found)-1]
		}
	}
	SkipWithout(t, strings.Join(names, ", or ")+" is not installed")
	return ""
}

// SkipWithout says that something from elsewhere is not here: the test is skipped, or
// fails in CI, which installs it.
func SkipWithout(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("RILLKEY_CI") == "1" {
		t.Fatal(what)
	}
	t.Skip(what + "; .ci/run installs it")
}

// Run runs a program and gives its standard output; it fails the test otherwise.
func Run(t *testing.T, cmd *exec.Cmd) string {
	t.Helper()
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s%s", cmd, err, out, stderr.String())
	}
	return string(out)
}

// Database loads a script and gives what a query prints as CSV.
type Database func(script, query string) string

// SQLite is a database in a file of its own.
func SQLite(t *testing.T) Database {
	prog := Program(t, "sqlite3")
	file := filepath.Join(t.TempDir(), "visits.db")
	return func(script, query string) string {
		load := exec.Command(prog, "-bail", file)
		load.Stdin = strings.NewReader("PRAGMA foreign_keys = ON;\n" + script)
		Run(t, load)
		return Run(t, exec.Command(prog, "-csv", file, query))
	}
}

// Postgres starts a server of its own that listens on a socket in a folder of
// its own, as somebody who is not the administrator.
func Postgres(t *testing.T) Database {
	psql := Program(t, "psql")
	initdb := Program(t, "/usr/lib/postgresql/*/bin/initdb", "initdb")
	server := filepath.Join(filepath.Dir(initdb), "postgres")
	dir, err := os.MkdirTemp("", "rk-pg-") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	attr := asNobody(t, dir)
	asUser := func(cmd *exec.Cmd) *exec.Cmd {
		cmd.SysProcAttr, cmd.Dir = attr, dir
		cmd.Env = append(os.Environ(), "HOME="+dir, "PGUSER=tester", "PGHOST="+dir, "PGDATABASE=postgres", "PGOPTIONS=-c client_min_messages=warning")
		return cmd
	}
	data := filepath.Join(dir, "data")
	Run(t, asUser(exec.Command(initdb, "-D", data, "-U", "tester", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")))
	ctx, stop := context.WithCancel(context.Background())
	serving := asUser(exec.CommandContext(ctx, server, "-D", data, "-k", dir, "-c", "listen_addresses=", "-c", "fsync=off"))
	serving.Cancel = func() error { return serving.Process.Signal(syscall.SIGINT) }
	serving.WaitDelay = 10 * time.Second
	if err := serving.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { stop(); _ = serving.Wait() })
	for begun := time.Now(); asUser(exec.Command(psql, "-c", "SELECT 1")).Run() != nil; time.Sleep(50 * time.Millisecond) {
		if time.Since(begun) > 30*time.Second {
			t.Fatal("the server does not answer")
		}
	}
	return func(script, query string) string {
		load := asUser(exec.Command(psql, "-q", "-v", "ON_ERROR_STOP=1"))
		load.Stdin = strings.NewReader(script)
		Run(t, load)
		return Run(t, asUser(exec.Command(psql, "--csv", "-t", "-c", query)))
	}
}

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

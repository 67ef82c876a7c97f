// Package exporttest runs programs that are no part of this project for its tests:
// readers and databases that check what is handed over.
package exporttest

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// FindProgram finds a program that is no part of this project. Without it a test
// says so and is skipped; in CI, which installs them, that is a failure.
func FindProgram(t *testing.T, names ...string) string {
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
	prog := FindProgram(t, "sqlite3")
	file := filepath.Join(t.TempDir(), "visits.db")
	return func(script, query string) string {
		load := exec.Command(prog, "-bail", file)
		load.Stdin = strings.NewReader("PRAGMA foreign_keys = ON;\n" + script)
		Run(t, load)
		return Run(t, exec.Command(prog, "-csv", file, query))
	}
}

// Server is a PostgreSQL server of its own that listens on a socket in a folder of its
// own, as somebody who is not the administrator.
type Server struct {
	t       *testing.T
	dir     string
	attr    *syscall.SysProcAttr
	initdb  string
	psql    string
	options []string
	serving *exec.Cmd
	ended   chan struct{}
}

// StartServer makes a server and starts it with some settings, such as "fsync=on".
func StartServer(t *testing.T, settings ...string) *Server {
	s := &Server{t: t, psql: FindProgram(t, "psql"), initdb: FindProgram(t, "/usr/lib/postgresql/*/bin/initdb", "initdb")}
	var err error
	if s.dir, err = os.MkdirTemp("", "rk-pg-"); err != nil { // a socket's path must be short
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(s.dir) })
	s.attr = asNobody(t, s.dir)
	for _, set := range settings {
		s.options = append(s.options, "-c", set)
	}
	Run(t, s.asOwner(exec.Command(s.initdb, "-D", s.data(), "-U", "tester", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")))
	s.Start()
	t.Cleanup(s.Stop)
	return s
}

func (s *Server) data() string { return filepath.Join(s.dir, "data") }

// Dir is the folder with the server's socket.
func (s *Server) Dir() string { return s.dir }

// URL is the address at which a user reaches the server.
func (s *Server) URL(user string) string {
	return "postgres:///postgres?host=" + s.dir + "&user=" + user
}

// asOwner runs a program as the owner of the server.
func (s *Server) asOwner(cmd *exec.Cmd) *exec.Cmd {
	cmd.SysProcAttr, cmd.Dir = s.attr, s.dir
	cmd.Env = append(os.Environ(), "HOME="+s.dir, "PGUSER=tester", "PGHOST="+s.dir, "PGDATABASE=postgres",
		"PGOPTIONS=-c client_min_messages=warning")
	return cmd
}

// Start starts the server, and waits until it answers.
func (s *Server) Start() {
	s.t.Helper()
	args := append([]string{"-D", s.data(), "-k", s.dir, "-c", "listen_addresses="}, s.options...)
	s.serving = s.asOwner(exec.Command(filepath.Join(filepath.Dir(s.initdb), "postgres"), args...))
	s.ended = make(chan struct{})
	if err := s.serving.Start(); err != nil {
		s.t.Fatal(err)
	}
	go func(cmd *exec.Cmd, ended chan struct{}) { _ = cmd.Wait(); close(ended) }(s.serving, s.ended)
	for begun := time.Now(); s.asOwner(exec.Command(s.psql, "-c", "SELECT 1")).Run() != nil; time.Sleep(50 * time.Millisecond) {
		if time.Since(begun) > 2*time.Minute {
			s.t.Fatal("the server does not answer")
		}
	}
}

// Stop ends the server as its keeper does.
func (s *Server) Stop() { s.end(syscall.SIGINT) }

// Kill ends the server as a crash does: it has not written what it was about to write.
func (s *Server) Kill() { s.end(syscall.SIGQUIT) }

func (s *Server) end(by syscall.Signal) {
	_ = s.serving.Process.Signal(by)
	select {
	case <-s.ended:
	case <-time.After(20 * time.Second):
		_ = s.serving.Process.Kill()
		<-s.ended
	}
}

// Spent is how much processor time the server took so far, with all that it started and
// that ended.
func (s *Server) Spent() time.Duration {
	s.t.Helper()
	var ticks int64
	all, _ := filepath.Glob("/proc/[0-9]*/stat")
	for _, file := range all {
		text, err := os.ReadFile(file)
		if err != nil {
			continue // it ended
		}
		_, rest, _ := strings.Cut(string(text), ") ")
		f := strings.Fields(rest)
		self := strings.HasPrefix(string(text), strconv.Itoa(s.serving.Process.Pid)+" ")
		if len(f) < 15 || !self && f[1] != strconv.Itoa(s.serving.Process.Pid) {
			continue
		}
		for i, field := range f[11:15] { // its own times, then those of what it waited for
			if n, err := strconv.ParseInt(field, 10, 64); err == nil && (i < 2 || self) {
				ticks += n
			}
		}
	}
	return time.Duration(ticks) * 10 * time.Millisecond
}

// Run runs a program beside the server, as its owner.
func (s *Server) Run(program string, args ...string) string {
	s.t.Helper()
	return Run(s.t, s.asOwner(exec.Command(FindProgram(s.t, "/usr/lib/postgresql/*/bin/"+program, program), args...)))
}

// Query runs a script, and gives what it prints as CSV.
func (s *Server) Query(script string) string {
	s.t.Helper()
	load := s.asOwner(exec.Command(s.psql, "-q", "-v", "ON_ERROR_STOP=1", "--csv", "-t"))
	load.Stdin = strings.NewReader(script)
	return Run(s.t, load)
}

// Postgres is a database in a server of its own.
func Postgres(t *testing.T) Database {
	s := StartServer(t, "fsync=off")
	return func(script, query string) string {
		s.Query(script)
		return s.Query(query)
	}
}

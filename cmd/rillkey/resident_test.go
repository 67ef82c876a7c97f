package main

import (
	"bytes"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"rillkey/taxa/wording"
)

// asResident is set where the program is to stay and take one command line after another.
const asResident = "RILLKEY_RESIDENT"

// A resident does command lines in one process, each as the program does that was just
// started, only that what is built in was read before: that takes most of the time of a
// short command.
type resident struct {
	cmd  *exec.Cmd
	to   io.WriteCloser
	asks *json.Encoder
	says *json.Decoder
	path string // where it looks for programs
}

type errand struct {
	Dir   string
	Args  []string
	Input []byte
}

type outcome struct {
	Status   int
	Out, Err []byte
}

// residents are those that nobody has an errand for just now: tests that run beside each
// other share them.
var residents struct {
	sync.Mutex
	idle []*resident
}

// do has the program done in a folder, by a resident; where .ci/run runs the tests, by a
// process of its own. PATH is where it looks for other programs.
func do(path string, e errand) (done outcome, err error) {
	if os.Getenv("RILLKEY_CI") == "1" {
		return alone(path, e)
	}
	residents.Lock()
	at := slices.IndexFunc(residents.idle, func(r *resident) bool { return r.path == path })
	var r *resident
	if at >= 0 {
		r = residents.idle[at]
		residents.idle = slices.Delete(residents.idle, at, at+1)
	}
	residents.Unlock()
	if r == nil {
		r = &resident{}
		if err := r.begin(path); err != nil {
			return outcome{}, err
		}
	}
	if err := r.asks.Encode(e); err != nil {
		return outcome{}, err
	}
	if err := r.says.Decode(&done); err != nil {
		return outcome{}, fmt.Errorf("rillkey %q went down: %w", e.Args, errors.Join(err, r.leave()))
	}
	residents.Lock()
	residents.idle = append(residents.idle, r)
	residents.Unlock()
	return done, nil
}

// residentsLeave ends those that are left.
func residentsLeave() {
	for _, r := range residents.idle {
		_ = r.leave()
	}
}

func (r *resident) begin(path string) (err error) {
	r.path = path
	r.cmd = exec.Command("rillkey")
	r.cmd.Env = append(os.Environ(), "TERM=xterm", "PATH="+path, asResident+"=1")
	r.cmd.Stderr = os.Stderr
	if r.to, err = r.cmd.StdinPipe(); err != nil {
		return err
	}
	out, err := r.cmd.StdoutPipe()
	if err != nil {
		return err
	}
	r.asks, r.says = json.NewEncoder(r.to), json.NewDecoder(out)
	return r.cmd.Start()
}

// leave ends it.
func (r *resident) leave() error {
	r.to.Close()
	return r.cmd.Wait()
}

// alone runs the program in a process of its own.
func alone(path string, e errand) (outcome, error) {
	cmd := exec.Command("rillkey", e.Args...)
	var out, errs bytes.Buffer
	cmd.Dir, cmd.Stdin, cmd.Stdout, cmd.Stderr = e.Dir, bytes.NewReader(e.Input), &out, &errs
	cmd.Env = append(os.Environ(), "TERM=xterm", "PATH="+path)
	if err := cmd.Run(); cmd.ProcessState == nil {
		return outcome{}, err
	}
	return outcome{cmd.ProcessState.ExitCode(), out.Bytes(), errs.Bytes()}, nil
}

// reside is the program that stays.
func reside() int {
	os.Unsetenv(asResident)
	asked, told := json.NewDecoder(os.Stdin), json.NewEncoder(os.Stdout)
	for {
		var e errand
		if err := asked.Decode(&e); errors.Is(err, io.EOF) {
			return 0
		} else if err != nil {
			panic(err)
		}
		if err := os.Chdir(e.Dir); err != nil {
			panic(err)
		}
		os.Setenv("PWD", e.Dir)
		wording.Use(nil)
		var out, errs bytes.Buffer
		status := run(e.Args, world{
			stdin: bytes.NewReader(e.Input), stdout: &out, stderr: &errs, now: time.Now, random: rand.Reader, env: environment(),
			width: 80, height: 24,
		})
		if err := told.Encode(outcome{status, out.Bytes(), errs.Bytes()}); err != nil {
			panic(err)
		}
	}
}

func program(t *testing.T, dir string, want int, args ...string) string {
	t.Helper()
	done, err := do(os.Getenv("PATH"), errand{Dir: dir, Args: args})
	if err != nil {
		t.Fatal(err)
	}
	out := string(done.Out) + string(done.Err)
	if done.Status != want {
		t.Fatalf("%v ends with %d: %s", args, done.Status, out)
	}
	return out
}

// begun is a folder with a visit without samples.
func begun(t *testing.T) (dir, file string) {
	t.Helper()
	dir = t.TempDir()
	file = filepath.Join(dir, "a.visit.toml")
	program(t, dir, statusDone, "visit", "begin", "--site", "Alder Run", "--date", "2026-05-16", "--protocol", "riffle-three",
		"--people", "Ann, Bo", "--cautions-read", "--visit", "a.visit.toml")
	return dir, file
}

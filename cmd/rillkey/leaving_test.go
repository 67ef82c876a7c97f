//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"rillkey/scoring/export/exporttest"
)

var endings = []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP}

// Every command that writes is held up while it syncs, then told to end: nothing
// that is not whole stays, and it ends by the signal.
func TestNothingStaysAfterASignal(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	strace := exporttest.FindProgram(t, "strace")
	program, err := exec.LookPath("rillkey")
	if err != nil {
		t.Fatal(err)
	}
	from, to, visit := sources(t, 0o644)
	fill := strings.NewReplacer("VISIT", visit, "FROM", from, "TO", to)
	for _, w := range writings {
		runIn(t, strings.Fields(strings.ReplaceAll(fill.Replace(w.args), "OUT", to))...)
	}
	for _, name := range []string{"copy-1.toml", "copy-2.toml"} { // they were put away
		if err := os.Rename(filepath.Join(from, name+".merged"), filepath.Join(from, name)); err != nil {
			t.Fatal(err)
		}
	}
	for i, w := range writings {
		if strings.Contains(w.args, "--add") || strings.Contains(w.args, "--write") {
			continue // there is nothing to replace in the new folder
		}
		sig := endings[i%len(endings)]
		t.Run(w.made+" at "+sig.String(), func(t *testing.T) {
			t.Parallel()
			if signal.Ignored(sig) {
				t.Skip("the tests were started so that this signal is ignored, and what they start inherits that")
			}
			out := t.TempDir()
			if err := os.Mkdir(filepath.Join(out, "in"), 0o777); err != nil {
				t.Fatal(err)
			}
			args := strings.Fields(strings.ReplaceAll(fill.Replace(w.args), "OUT", out))
			cmd := exec.Command(strace, slices.Concat(
				[]string{"-D", "-f", "-o", os.DevNull, "-e", "trace=fsync", "-e", "inject=fsync:delay_enter=2s", program}, args)...)
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			begun := func() bool {
				return slices.ContainsFunc(everythingIn(t, out), func(name string) bool { return strings.HasSuffix(name, ".tmp") })
			}
			for n := 0; n < 20000 && !begun(); n++ {
				time.Sleep(5 * time.Millisecond)
			}
			if err := cmd.Process.Signal(sig); err != nil {
				t.Fatal(err)
			}
			_ = cmd.Wait()
			if state := cmd.ProcessState.Sys().(syscall.WaitStatus); state.Signal() != sig {
				t.Errorf("it ended with %v", cmd.ProcessState)
			}
			if left := everythingIn(t, out); len(left) != 2 {
				t.Errorf("it left %q", left[1:])
			}
		})
	}
}

// Commands that take long and ask nothing say on Ctrl-C what is written. It comes as
// they open what they read, which then takes its time.
func TestCtrlCSaysWhatIsWritten(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	if signal.Ignored(os.Interrupt) {
		t.Skip("the tests were started so that Ctrl-C is ignored, and what they start inherits that")
	}
	t.Parallel()
	strace := exporttest.FindProgram(t, "strace")
	from, _, visit := sources(t, 0o644)
	var all sync.WaitGroup
	for _, row := range []struct{ reads, says, args string }{
		{visit, "nothing was written; the same command can be typed again", "rates learn TO/rates.toml " + visit},
		{filepath.Join(from, "animals.csv"), "nothing was written; the same command can be typed again",
			"couplets draft --csv FROM/animals.csv --out TO/drafted.toml --taxa-out TO/taxa"},
		{visit, "the same command, typed again, makes the others", "publish FROM --to TO/public"},
	} {
		to := t.TempDir()
		all.Go(func() { // each mostly waits
			args := strings.Fields(strings.NewReplacer("FROM", from, "TO", to).Replace(row.args))
			cmd := exec.Command(strace, slices.Concat([]string{"-D", "-f", "-o", os.DevNull, "-P", row.reads,
				"-e", "trace=openat,read,pread64", "-e", "inject=openat:signal=INT",
				"-e", "inject=read,pread64:delay_enter=5s", "rillkey"}, args)...)
			said, _ := cmd.CombinedOutput()
			state := cmd.ProcessState.Sys().(syscall.WaitStatus)
			if state.Signal() != syscall.SIGINT || !strings.Contains(string(said), row.says) {
				t.Errorf("%s ended with %v and says %q", args[0], cmd.ProcessState, said)
			}
			if left := everythingIn(t, to); len(left) != 1 {
				t.Errorf("%s left %q", args[0], left[1:])
			}
		})
	}
	all.Wait()
}

// endedWhole starts a command, whose helper writes bin/beat for ever, and ends it by a
// signal: it says so, nothing is left in the folder, and the helper has ended too.
func endedWhole(t *testing.T, cmd *exec.Cmd, sig os.Signal, bin, folder string) {
	t.Helper()
	var said bytes.Buffer
	cmd.Stderr = &said
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	beat := filepath.Join(bin, "beat")
	for range 20000 {
		if _, err := os.Stat(beat); err == nil {
			break
		}
		time.Sleep(5 * time.Millisecond)
	}
	if err := cmd.Process.Signal(sig); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	if !strings.Contains(said.String(), "nothing was written; the same command can be typed again") {
		t.Errorf("%v: it says %q", sig, &said)
	}
	if left := everythingIn(t, folder); len(left) != 1 {
		t.Errorf("%v left %q", sig, left[1:])
	}
	if err := os.Remove(beat); err != nil {
		t.Fatalf("%v: the helper was not started", sig)
	}
	time.Sleep(200 * time.Millisecond)
	if _, err := os.Stat(beat); err == nil {
		t.Errorf("%v: what was started goes on", sig)
	}
}

// A browser that never ends, and has another program do its work, is ended too,
// and its profile taken away.
func TestABrowserAndItsProfileAreGoneAfterASignal(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	for _, sig := range endings {
		bin, dir := t.TempDir(), t.TempDir()
		temp, err := os.MkdirTemp("", "r") // a short name
		if err != nil {
			t.Fatal(err)
		}
		defer os.RemoveAll(temp)
		script := "#!/bin/sh\nmkdir $TMPDIR/of-the-browser\nfor a; do case $a in --user-data-dir=*) d=${a#*=}; mkdir -p $d; esac; done\n" +
			"(while :; do echo $$ > $d/alive; echo x > " + bin + "/beat; sleep 0.02; done) &\nwait\n"
		if err := os.WriteFile(filepath.Join(bin, "chromium"), []byte(script), 0o755); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command("rillkey", "print", "labels", "--pdf", filepath.Join(temp, "labels.pdf"))
		cmd.Dir, cmd.Env = dir, append(os.Environ(), "PATH="+bin+":"+os.Getenv("PATH"), "TMPDIR="+temp)
		endedWhole(t, cmd, sig, bin, temp)
	}
}

// Making a PDF sends nothing to any network: no name is asked for, nothing is
// connected to, nothing is sent.
func TestNoNetworkIsAskedForAPDF(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	strace := exporttest.FindProgram(t, "strace")
	exporttest.FindProgram(t, "chromium", "chromium-browser", "google-chrome")
	dir := t.TempDir()
	log := filepath.Join(dir, "log")
	exporttest.Run(t, exec.Command(strace, "-f", "-yy", "-s", "0", "-e", "trace=%network", "-o", log, "rillkey", "print",
		"labels", "--pdf", filepath.Join(dir, "labels.pdf")))
	data, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	asks := regexp.MustCompile(`send(to|m?msg)\(\d+<(UDP|TCP)|connect\(\d+<TCP|connect\(.*htons\(53\)`)
	for line := range strings.Lines(string(data)) {
		if asks.MatchString(line) {
			t.Error(line)
		}
	}
	if !strings.Contains(string(data), "socket(") {
		t.Error("the log shows nothing")
	}
}

// standInGo puts a program in the place of Go that says which folder the source is in,
// and does this where it is to build.
func standInGo(t *testing.T, build string) (path string) {
	t.Helper()
	bin := t.TempDir()
	script := "#!/bin/sh\necho \"$GOPROXY $GONOPROXY\" >> " + bin + "/asked\ncase $1 in\nlist) echo rillkey $PWD;;\nbuild) " + build +
		";;\nesac\n"
	if err := os.WriteFile(filepath.Join(bin, "go"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	return bin
}

// What builds the page for phones asks no network for anything, whatever folder it is in.
func TestNoNetworkIsAskedForAPageForPhones(t *testing.T) {
	t.Parallel()
	bin := standInGo(t, "exit 1")
	cmd := exec.Command("rillkey", "pocket", "--to", "page.html")
	cmd.Dir, cmd.Env = t.TempDir(), append(os.Environ(), "PATH="+bin+":"+os.Getenv("PATH"))
	_ = cmd.Run() // there is no page
	asked, err := os.ReadFile(filepath.Join(bin, "asked"))
	if lines := strings.Fields(string(asked)); err != nil || len(lines) != 4 || slices.ContainsFunc(lines, func(w string) bool {
		return w != "off" && w != "none"
	}) {
		t.Errorf("Go was begun with %q (%v)", asked, err)
	}
}

// Building the page for phones leaves nothing behind either, and ends with the program.
func TestThePageForPhonesLeavesNothingAfterASignal(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes half a second")
	}
	t.Parallel()
	for _, sig := range endings {
		temp := t.TempDir()
		bin := standInGo(t, "(while :; do echo x > $(dirname $0)/beat; sleep 0.02; done) & mkdir $GOTMPDIR/work; wait")
		cmd := exec.Command("rillkey", "pocket", "--to", filepath.Join(temp, "page.html"))
		cmd.Dir, cmd.Env = t.TempDir(), append(os.Environ(), "PATH="+bin+":"+os.Getenv("PATH"), "TMPDIR="+temp)
		endedWhole(t, cmd, sig, bin, temp)
	}
}

//go:build unix

package main

import (
	"bytes"
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"rillkey/scoring/visit"
)

// rounds is how many commands are killed; RILLKEY_KILLS asks for more.
func rounds() int {
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_KILLS")); err == nil {
		return n
	}
	if testing.Short() {
		return 10
	}
	return 40
}

var savedCode = regexp.MustCompile(`"event": "([0-9a-z]{8})"`)

// TestCommandsKilledAtAnyInstant runs commands that add to one visit, five at a
// time, and kills each with SIGKILL: at a random instant, or as soon as the file
// grew. Whatever was reported as saved is in the file, once, and the file is
// sound.
func TestCommandsKilledAtAnyInstant(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	file := filepath.Join(dir, "v.visit.toml")
	run := func(args ...string) string {
		out, err := exec.Command("rillkey", args...).Output()
		if err != nil {
			t.Fatalf("%v: %v", args, err)
		}
		return string(out)
	}
	run("visit", "begin", "--visit", file, "--site", "Otter Run", "--date", "2026-05-16", "--protocol", "riffle-three", "--cautions-read")
	run("visit", "sample", "--visit", file, "--label", "1", "--habitat", "riffle")
	animal := savedCode.FindStringSubmatch(
		run("identify", "--visit", file, "--observe", "legs=10", "--observe", "forelegs=pincers", "--json"))[1]
	commands := func(i int) []string {
		note := strings.Repeat("x", i*37%1900)
		switch i % 10 {
		case 0, 1:
			return []string{"visit", "amend", "--visit", file, "--of", animal, "--count", fmt.Sprint(1 + i%90), "--reason",
				"counted again " + note, "--json"}
		case 2:
			return []string{"visit", "sample", "--visit", file, "--label", fmt.Sprint("s", i), "--habitat", "riffle", "--json"}
		}
		return []string{"identify", "--visit", file, "--sample", "1", "--observe", "legs=10", "--observe", "forelegs=pincers",
			"--note", note, "--json"}
	}
	var mu sync.Mutex
	reported := map[string]bool{}
	killed := 0
	next := make(chan int)
	var running sync.WaitGroup
	for range 5 {
		running.Go(func() {
			for i := range next {
				codes, dead := killedCommand(file, commands(i), rand.New(rand.NewSource(int64(i))))
				mu.Lock()
				for _, code := range codes {
					reported[code] = true
				}
				if dead {
					killed++
				}
				mu.Unlock()
			}
		})
	}
	for i := range rounds() {
		next <- i
	}
	close(next)
	running.Wait()
	v, err := visit.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]int{}
	for _, e := range v.Events {
		found[e.ID]++
	}
	for code := range reported {
		if found[code] != 1 {
			t.Errorf("%s was reported as saved and is there %d times", code, found[code])
		}
	}
	torn := 0
	for _, n := range append(v.Notices, v.Tally().Notices...) {
		if torn++; n.Trouble != visit.Torn {
			t.Error(n)
		}
	}
	if killed == 0 {
		t.Error("every command was through before it was killed")
	}
	t.Logf("%d commands, %d killed, %d reported as saved and found, %d entries in the file, %d torn", rounds(), killed,
		len(reported), len(v.Events), torn)
}

// killedCommand runs a command, kills it, and gives the codes that it reported.
func killedCommand(file string, args []string, random *rand.Rand) (codes []string, dead bool) {
	cmd := exec.Command("rillkey", args...)
	var out bytes.Buffer
	cmd.Stdout = &out
	size := sizeOf(file)
	if cmd.Start() != nil {
		return nil, false
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		_ = cmd.Wait()
	}()
	patience := time.Duration(random.Intn(900)) * time.Millisecond
	grown := random.Intn(2) == 0
	for begun := time.Now(); ; {
		select {
		case <-done:
			return codesIn(out.String()), !cmd.ProcessState.Exited()
		case <-time.After(500 * time.Microsecond):
		}
		if grown && sizeOf(file) > size || time.Since(begun) > patience && !grown {
			_ = cmd.Process.Kill()
			grown, patience = false, time.Hour
		}
	}
}

func codesIn(out string) (codes []string) {
	for _, m := range savedCode.FindAllStringSubmatch(out, -1) {
		codes = append(codes, m[1])
	}
	return codes
}

func sizeOf(file string) int64 {
	info, err := os.Stat(file)
	if err != nil {
		return 0
	}
	return info.Size()
}

package main

import (
	"bytes"
	"os"
	"os/exec"
	"regexp"
	"runtime"
	"strconv"
	"testing"
)

// A command begins without work that it does not need: what packages make before anything
// runs, and what help makes, is bounded in bytes, which the machine's load does not move.
// The race detector adds a sixth.
func TestACommandBeginsWithLittle(t *testing.T) {
	const most, mostOfOne, mostOfHelp = 850_000, 450_000, 150_000 // bytes; what tests themselves make is among them, some 300 kB
	cmd := exec.Command("rillkey", "--help")
	cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	var trace bytes.Buffer
	cmd.Stderr = &trace
	if err := cmd.Run(); err != nil {
		t.Fatal(err)
	}
	sum, packages := 0, 0
	for _, m := range regexp.MustCompile(`(?m)^init (\S+) .* (\d+) bytes, `).FindAllStringSubmatch(trace.String(), -1) {
		n, err := strconv.Atoi(m[2])
		if err != nil {
			t.Fatal(err)
		}
		packages++
		if sum += n; n > mostOfOne {
			t.Errorf("%s makes %d bytes before anything runs", m[1], n)
		}
	}
	if packages < 50 || sum > most {
		t.Errorf("%d packages make %d bytes before anything runs", packages, sum)
	}
	call(t, "--help") // what is made once
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	status, out, errs := call(t, "--help")
	runtime.ReadMemStats(&after)
	if made := after.TotalAlloc - before.TotalAlloc; status != statusDone || len(out) < 1000 || made > mostOfHelp {
		t.Errorf("help makes %d bytes; status %d, %d characters, %s", made, status, len(out), errs)
	} else {
		t.Logf("%d packages make %d bytes, help %d", packages, sum, made)
	}
}

//go:build unix

package main

import (
	"encoding/json"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/visit"
)

// freePort is a port that nobody uses now, and that no system gives to whoever calls
// another: what is killed can have it again.
func freePort(t *testing.T) string {
	t.Helper()
	for range 100 {
		port := strconv.Itoa(10_000 + rand.IntN(20_000))
		if l, err := net.Listen("tcp", "127.0.0.1:"+port); err == nil {
			l.Close()
			return port
		}
	}
	t.Fatal("no port is free")
	return ""
}

// A phone at a real table, in a real browser: see table.cjs. Every animal that was
// counted, out of reach, while the table was killed, in two windows, where the
// browser keeps nothing, is in the file once. RILLKEY_SHOTS names a folder that keeps
// the pictures.
func TestAPhoneAtTheTable(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds a program for browsers")
	}
	t.Parallel()
	script := filepath.Join(pagesTools(t), "table.cjs")
	node, browser := exporttest.FindProgram(t, "node"), exporttest.FindProgram(t, "chromium", "chromium-browser", "google-chrome")
	_, file := begun(t)
	runIn(t, "visit", "sample", "--visit", file, "--habitat", "riffle")
	shots := os.Getenv("RILLKEY_SHOTS")
	if shots == "" {
		shots = t.TempDir()
	}
	program, err := exec.LookPath("rillkey")
	if err != nil {
		t.Fatal(err)
	}
	out := exporttest.Run(t, exec.Command(node, script, browser, shots, program, file, freePort(t), pageFile(t)))
	var saw struct {
		Faults, Remarks []string
		Times           map[string]int
		Animals         int
	}
	if err := json.Unmarshal([]byte(out), &saw); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	for _, f := range saw.Faults {
		t.Error(f)
	}
	v, err := visit.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, r := range v.Tally().Records {
		n += r.Count
	}
	if n != saw.Animals || n < 10 || len(v.Notices) > 0 {
		t.Errorf("%d animals were counted, the file holds %d; %v\n%s", saw.Animals, n, v.Notices, visit.Blocks(v.Events))
	}
	t.Logf("%d animals, %v, %q", n, saw.Times, saw.Remarks)
}

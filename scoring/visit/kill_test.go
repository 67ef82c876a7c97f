//go:build unix

package visit

import (
	"bufio"
	"crypto/rand"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// rounds is how often a process is killed: 1,000 times in CI.
func rounds(t *testing.T) int {
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_KILLS")); err == nil {
		return n
	}
	if testing.Short() {
		return 5
	}
	return 40
}

// TestKilledAtAnyInstant lets a process add records as fast as it can, and
// kills it with SIGKILL at a random instant. Every record that it had reported
// as saved is in the file, once.
func TestKilledAtAnyInstant(t *testing.T) {
	if path := os.Getenv("VISIT_TEST_KILLED"); path != "" {
		appendForEver(path)
		return
	}
	t.Parallel()
	const perFile = 20 // rounds on one file, so that it stays of a usual size
	total, torn := 0, 0
	var path string
	var saved []string
	for round := range rounds(t) {
		if round%perFile == 0 {
			path, saved = filepath.Join(t.TempDir(), "v.toml"), nil
			if _, err := Create(path, Header{Site: "Otter Run", Date: "2024-05-31", Begun: noon}, rand.Reader); err != nil {
				t.Fatal(err)
			}
			if _, err := Append(path, noon, "", Sample{Label: "1", Habitat: "riffle"}, rand.Reader); err != nil {
				t.Fatal(err)
			}
		}
		acknowledged := killOnce(t, path)
		saved = append(saved, acknowledged...)
		total += len(acknowledged)
		v := read(t, path)
		seen := map[string]int{}
		for _, e := range v.Events {
			seen[e.ID]++
		}
		for _, id := range saved {
			if seen[id] != 1 {
				t.Fatalf("round %d: %s was reported as saved and is there %d times", round, id, seen[id])
			}
		}
		for _, n := range v.Notices {
			if n.Trouble != Torn {
				t.Fatalf("round %d: %v", round, n)
			}
			torn++
		}
	}
	if total == 0 {
		t.Error("no process lived long enough to save anything")
	}
	t.Logf("%d rounds, %d records acknowledged and found, %d torn ends named", rounds(t), total, torn)
}

// killOnce gives the ids that the process reported before it was killed.
func killOnce(t *testing.T, path string) (ids []string) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestKilledAtAnyInstant$")
	cmd.Env = append(os.Environ(), "VISIT_TEST_KILLED="+path, "GORACE=atexit_sleep_ms=0")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	micros, err := rand.Int(rand.Reader, big.NewInt(12_000))
	if err != nil {
		t.Fatal(err)
	}
	in := bufio.NewScanner(out)
	for in.Scan() {
		id, ok := strings.CutPrefix(in.Text(), "saved ")
		if ok && len(id) == idLength {
			ids = append(ids, id)
		}
		if len(ids) == 1 {
			time.AfterFunc(time.Duration(micros.Int64())*time.Microsecond, func() { _ = cmd.Process.Kill() })
		}
	}
	_ = cmd.Wait()
	return ids
}

func appendForEver(path string) {
	for i := range 5000 {
		s, err := Append(path, time.Now(), "Ada",
			Identification{Sample: "1", Taxon: "baetidae", Count: 1 + i%9, Note: strings.Repeat("x", i%300)}, rand.Reader)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println("saved", s.Event.ID)
	}
}

package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/phone"
	"rillkey/cmd/rillkey/region"
	"rillkey/scoring/export/exporttest"
	"rillkey/taxa/wording"
)

// pressed is one press of a button on the page.
type pressed struct {
	Do     string           `json:"do"`
	Fields phone.FormValues `json:"fields"`
}

// drive runs the page's program in node: it presses what it is given, and prints the
// page after each "end".
const drive = `
require(process.argv[2]);
const fs = require('fs');
globalThis.rillkeyKey = 'north-america';
globalThis.rillkeyServed = false;
const out = [];
globalThis.rillkeyReady = () => {
  for (const p of JSON.parse(fs.readFileSync(process.argv[4]))) {
    if (p.do === 'end') out.push(rillkey.html());
    else rillkey.do(p.do, JSON.stringify(p.fields || {}));
  }
  fs.writeFileSync(process.argv[5], JSON.stringify(out));
  process.exit(0);
};
const go = new Go();
WebAssembly.instantiate(fs.readFileSync(process.argv[3]), go.importObject).then((p) => go.run(p.instance));
`

// paths is on how many random ways through the questions page and program are
// compared; RILLKEY_PATHS asks for more.
func paths() int {
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_PATHS")); err == nil {
		return n
	}
	return 6
}

// The page that is built for phones and this program give the same verdicts, byte for
// byte.
func TestThePageSaysWhatTheProgramSays(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds a program for browsers")
	}
	// In the region's English, as the page; before others speak beside this.
	wording.Use(region.BuiltInWords("north-america"))
	presses, want := randomPaths(paths())
	wording.Use(nil)
	t.Parallel()
	node := exporttest.FindProgram(t, "node")
	program, err := builtPage()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	packed, err := gzip.NewReader(bytes.NewReader(program.Packed))
	if err != nil {
		t.Fatal(err)
	}
	wasm, err := io.ReadAll(packed)
	if err != nil {
		t.Fatal(err)
	}
	script, err := json.Marshal(presses)
	if err != nil {
		t.Fatal(err)
	}
	result := filepath.Join(dir, "out.json")
	exporttest.Run(t, exec.Command(node, file("drive.cjs", []byte(drive)), file("go.js", []byte(program.Runner)), file("page.wasm", wasm),
		file("presses.json", script), result))
	text, err := os.ReadFile(result)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	verdicts := 0
	for i := range want {
		if i >= len(got) || got[i] != want[i] {
			t.Fatalf("way %d: the page and the program differ", i)
		}
		if strings.Contains(want[i], "Why, and what else it could be") {
			verdicts++
		}
	}
	if verdicts < max(1, len(want)/4) { // of many ways seven in ten do
		t.Errorf("only %d of %d ways come to a verdict", verdicts, len(want))
	}
	t.Logf("%d ways, %d verdicts", len(want), verdicts)
}

// randomPaths are presses on random ways through the questions, and the pages that
// they come to.
func randomPaths(n int) (presses []pressed, pages []string) {
	random := rand.New(rand.NewPCG(17, 1))
	p := phone.New(phone.NewKit("north-america"), time.Now, rand.NewChaCha8([32]byte{1}))
	do := func(what string, f phone.FormValues) {
		presses = append(presses, pressed{what, f})
		p.Do(what, f)
	}
	do("begin", phone.FormValues{"site": "Mill Brook", "protocol": "riffle-three", "habitat": "riffle", "read": "yes"})
	for range n {
		do("name", nil)
		for range 40 {
			page := p.HTML()
			if strings.Contains(page, `value="keep"`) {
				break
			}
			do(anyAnswer(page, random), nil)
		}
		presses = append(presses, pressed{Do: "end"})
		pages = append(pages, p.HTML())
		do("drop", nil)
	}
	return presses, pages
}

// anyAnswer is an answer that the page offers, seldom one that is no lead.
func anyAnswer(page string, random *rand.Rand) string {
	var leads []string
	for _, part := range strings.Split(page, `name="do" value="`)[1:] {
		if do, rest, _ := strings.Cut(part, `"`); strings.HasPrefix(do, "answer:") && strings.HasPrefix(rest, ` class="lead"`) {
			leads = append(leads, do)
		}
	}
	if len(leads) == 0 || random.IntN(12) == 0 {
		return "answer:?"
	}
	return leads[random.IntN(len(leads))]
}

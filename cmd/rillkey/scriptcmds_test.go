package main

import (
	"bytes"
	"fmt"
	"html"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"github.com/rogpeppe/go-internal/testscript"

	"rillkey/cmd/rillkey/demo"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// status N rillkey ARGS… runs the program and wants exit status N. Whatever it
// pageCommand goes to the files out and err. An optional "<FILE" gives its input.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N [<FILE] rillkey ARGS…")
	}
	want, rest := args[0], args[1:]
	var stdin []byte
	if in, ok := strings.CutPrefix(rest[0], "<"); ok {
		stdin, rest = []byte(ts.ReadFile(in)), rest[1:]
	}
	if rest[0] != "rillkey" {
		ts.Fatalf("status is that of rillkey, not of %s", rest[0])
	}
	done, err := do(ts.Getenv("PATH"), errand{ts.MkAbs("."), rest[1:], stdin})
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs("out"), done.Out, 0o644))
	ts.Check(os.WriteFile(ts.MkAbs("err"), done.Err, 0o644))
	if got := strconv.Itoa(done.Status); got != want {
		ts.Fatalf("%s ended with %s, not %s\n%s%s", strings.Join(rest, " "), got, want, done.Out, done.Err)
	}
}

// sentence wants exactly one line on standard error, without anything that
// could move a cursor and without a stack trace.
func sentence(ts *testscript.TestScript, _ bool, _ []string) {
	text := ts.ReadFile("err")
	line, rest, _ := strings.Cut(text, "\n")
	if line == "" || rest != "" || plain.HasControl(line) || strings.Contains(line, "goroutine") {
		ts.Fatalf("not one clear line: %q", text)
	}
}

// named ANSWERS TAXON saves an animal to v.toml by these answers, and corrects it to
// what it proved to be.
func named(ts *testscript.TestScript, _ bool, args []string) {
	const rillkey = "rillkey identify --visit v.toml --json --answers %s | sed -n 's/.*\"event\": \"\\(.*\\)\"/\\1/p'"
	ts.Check(ts.Exec("sh", "-c", fmt.Sprintf(rillkey+
		" >id; rillkey visit amend --visit v.toml --of $(cat id) --taxon %s --reason 'looked again'", args[0], args[1])))
}

// answers TAXON FILE [PART] writes the lines that answer 'identify' truthfully for
// an animal of the taxon, as the trait table has it, and after them the file
// PART. No script needs to know the numbers of couplets.
func answers(ts *testscript.TestScript, _ bool, args []string) {
	catalog, err := taxa.Embedded()
	ts.Check(err)
	sound, err := couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, catalog)
	ts.Check(err)
	m, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
	ts.Check(err)
	q, _, err := demo.Catch{Taxon: args[0]}.Name(m)
	ts.Check(err)
	text := strings.Join(q.Path(), "\n") + "\n"
	if len(args) > 2 {
		text += ts.ReadFile(args[2])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o644))
}

// cut FILE N keeps the first N bytes of a file; a negative N leaves off the last.
func cut(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	data := []byte(ts.ReadFile(args[0]))
	if n < 0 {
		n += len(data)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data[:n], 0o644))
}

// damage FILE OLD NEW changes the first of some bytes in a file.
func damage(ts *testscript.TestScript, _ bool, args []string) {
	data := ts.ReadFile(args[0])
	if !strings.Contains(data, args[1]) {
		ts.Fatalf("%s has no %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Replace(data, args[1], args[2], 1)), 0o644))
}

// unshown rillkey ARGS… runs the program with an output that takes nothing, and
// wants the status for that.
func unshown(ts *testscript.TestScript, _ bool, args []string) {
	path, err := exec.LookPath(args[0])
	ts.Check(err)
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	ts.Check(err)
	defer full.Close()
	cmd := exec.Command(path, args[1:]...)
	var stderr bytes.Buffer
	cmd.Dir, cmd.Stdout, cmd.Stderr = ts.MkAbs("."), full, &stderr
	cmd.Env = append(os.Environ(), "PATH="+ts.Getenv("PATH"))
	_ = cmd.Run()
	ts.Check(os.WriteFile(ts.MkAbs("err"), stderr.Bytes(), 0o644))
	if got := cmd.ProcessState.ExitCode(); got != statusUntold {
		ts.Fatalf("%s ended with %d: %s", strings.Join(args, " "), got, stderr.String())
	}
}

// fill FILE WHAT makes a file that no editor wrote: 100 MB, noise, or nothing.
func fill(ts *testscript.TestScript, _ bool, args []string) {
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	switch args[1] {
	case "100MB":
		ts.Check(f.Truncate(100 << 20))
	case "noise":
		noise := make([]byte, 4096)
		for i := range noise {
			noise[i] = byte(i*i*31 + i*7 + i>>3)
		}
		_, err = f.Write(noise)
		ts.Check(err)
	}
}

// code is that of an entry or a text, which chance may make of letters that are a word.
var code = regexp.MustCompile(`\b[0-9a-z]{8}\]|\b[0-9a-z]*[0-9][0-9a-z]*\b`)

// noneOfTheWords is the command "without LIST FILE…", which wants none of the words of the file LIST in what people read of
// pages and lines: no markup, no style, no command, nothing that is an address.
func noneOfTheWords(ts *testscript.TestScript, _ bool, args []string) {
	unwanted := map[string]bool{}
	for _, word := range strings.Fields(ts.ReadFile(args[0])) {
		unwanted[word] = true
	}
	for _, file := range args[1:] {
		var found []string
		text := readable(ts.ReadFile(file))
		for _, word := range strings.FieldsFunc(code.ReplaceAllString(text, ""), func(r rune) bool { return !unicode.IsLetter(r) }) {
			if unwanted[strings.ToLower(word)] {
				found = append(found, word)
			}
		}
		if text == "" || len(found) > 0 {
			ts.Logf("%s", text)
			ts.Fatalf("%s: %d of these words: %s", file, len(found), strings.Join(found, " "))
		}
	}
}

var unread = regexp.MustCompile(
	`(?s)<style.*?</style>|<meta[^>]*>|<!doctype[^>]*>|</?[a-z][a-z0-9]*|[a-z-]+="[^"]*"|--[a-z-]+[= ]\S*|\S+\.(?:toml|csv|html)` +
		`|\([0-9a-z]{8}\)`) // an id that chance drew may end in a word

var heard = regexp.MustCompile(`(?:alt|title|aria-label)="([^"]*)"`)

// readable is what of a page or of lines is read or heard.
func readable(text string) string {
	said := ""
	for _, m := range heard.FindAllStringSubmatch(text, -1) {
		said += m[1] + "\n"
	}
	var lines []string
	for line := range strings.Lines(unread.ReplaceAllString(text, " ") + said) {
		if !strings.HasPrefix(strings.TrimSpace(line), "rillkey ") {
			lines = append(lines, line)
		}
	}
	return command.ReplaceAllString(html.UnescapeString(strings.Join(lines, "")), " ")
}

var command = regexp.MustCompile(`(?m)'rillkey [^']*'|: rillkey .*$`)

//go:build unix

package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"

	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/visit"
)

// making is a command that makes a file or a folder in the folder OUT.
type making struct{ made, args string }

// writings are all ways to make a file or a folder in the folder OUT from files:
// from the visit VISIT, the folder FROM it is in, or what an earlier one made, in
// TO.
var writings = []making{
	{"merged.visit.toml", "visit merge FROM/copy-1.toml FROM/copy-2.toml --to OUT/merged.visit.toml"},
	{"a.sql", "export --as sql --to OUT/a.sql FROM"},
	{"a.zip", "export --as darwin-core --to OUT/a.zip FROM"},
	{"tables", "export --as csv --to OUT/tables FROM"},
	{"in/*.toml", "import TO/tables --into OUT/in"},
	{"report.html", "print report VISIT --to OUT/report.html"},
	{"labels.html", "print labels --visit VISIT --to OUT/labels.html"},
	{"sheet.html", "print sheet --visit VISIT --to OUT/sheet.html"},
	{"rates.toml", "rates learn OUT/rates.toml VISIT"},
	{"rates.toml", "rates learn OUT/rates.toml VISIT --add"},
	{"drafted.toml", "couplets draft --csv FROM/animals.csv --out OUT/drafted.toml --taxa-out OUT/taxa"},
	{"taxa/*.toml", "couplets draft --csv FROM/animals.csv --out OUT/drafted.toml --taxa-out OUT/taxa --write"},
	{"trimmed.toml", "couplets trim --key TO/drafted.toml --taxa TO/taxa --region FROM/region.toml --out OUT/trimmed.toml"},
}

// written gives every one of the writings to use, which carries it out, from
// files of the mode in a new folder.
func written(t *testing.T, mode fs.FileMode, use func(made string, args []string)) {
	t.Helper()
	from, to, visit := sources(t, mode)
	fill := strings.NewReplacer("VISIT", visit, "FROM", from, "TO", to, "OUT", to)
	for _, w := range writings {
		use(filepath.Join(to, w.made), strings.Fields(fill.Replace(w.args)))
	}
}

// Whatever is made from private files is for its owner alone, and the umask holds.
// No other test runs beside this one, whose umask it would have.
func TestWhatComesFromAPrivateFileStaysPrivateAndTheUmaskHolds(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for _, row := range []struct {
		why       string
		umask     int
		from      fs.FileMode
		file, dir fs.FileMode
	}{
		{"nothing private", 0o022, 0o644, 0o644, 0o755},
		{"a private umask", 0o077, 0o644, 0o600, 0o700},
		{"private files", 0o022, 0o600, 0o600, 0o700},
		{"files of a group", 0o002, 0o660, 0o660, 0o770},
	} {
		t.Run(row.why, func(t *testing.T) {
			defer syscall.Umask(syscall.Umask(row.umask))
			written(t, row.from, func(made string, args []string) {
				runIn(t, args...)
				paths, _ := filepath.Glob(made)
				inside, _ := filepath.Glob(filepath.Join(made, "*"))
				for _, path := range append(paths, inside...) {
					want := row.file
					info, err := os.Stat(path)
					if err == nil && info.IsDir() {
						want = row.dir
					}
					if err != nil || info.Mode().Perm() != want {
						t.Errorf("%s: %s has %v, want %v (%v)", strings.Join(args[:2], " "), filepath.Base(path),
							info.Mode().Perm(), want, err)
					}
				}
				if len(paths) == 0 {
					t.Errorf("%q made nothing", args)
				}
			})
		})
	}
}

// A file that is said to be there is there after a power cut: itself, and then
// the folder that holds its name, are synced before the program ends.
func TestWhatIsWrittenIsSyncedWithItsFolder(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	strace := exporttest.FindProgram(t, "strace")
	program, err := exec.LookPath("rillkey")
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile(`(?:renameat2?|rename|linkat)\(.*?"([^"]*)"[^"]*"([^"]*)"[^"]*\)\s+= 0`)
	synced := regexp.MustCompile(`(?:fsync|fdatasync)\(\d+<(.*?)>\)\s+= 0`)
	written(t, 0o644, func(made string, args []string) {
		log := filepath.Join(t.TempDir(), "log")
		exporttest.Run(t, exec.Command(strace,
			slices.Concat([]string{"-f", "-y", "-o", log, "-e", "trace=fsync,fdatasync,rename,renameat,renameat2,link,linkat",
				program}, args)...))
		data, err := os.ReadFile(log)
		if err != nil {
			t.Fatal(err)
		}
		names, last, safe := 0, "", map[string]bool{}
		begun := map[string]string{} // calls that others came between, by thread
		for line := range strings.Lines(string(data)) {
			thread, call, _ := strings.Cut(strings.TrimSpace(line), " ")
			if first, ok := strings.CutSuffix(call, " <unfinished ...>"); ok {
				begun[thread] = first
				continue
			}
			if _, rest, ok := strings.Cut(call, " resumed>"); ok {
				call = begun[thread] + rest
			}
			if m := synced.FindStringSubmatch(call); m != nil {
				safe[m[1]] = true
				if m[1] == last {
					last = ""
				}
			}
			m := named.FindStringSubmatch(call)
			if m == nil || strings.Contains(m[2], ".cache") || strings.Contains(m[2], "gocoverdir") { // no file of the program's own
				continue
			}
			if !safe[m[1]] && !strings.HasSuffix(m[2], visit.PutAwaySuffix) {
				t.Errorf("%s: %s gets its name before it is synced", strings.Join(args[:2], " "), filepath.Base(m[2]))
			}
			safe[m[2]] = true
			names, last = names+1, filepath.Dir(m[2])
		}
		if names == 0 || last != "" {
			t.Errorf("%s: %d names given, the last in %q not synced:\n%s", strings.Join(args[:2], " "), names, last, data)
		}
	})
}

// On a card without hard links a program that is killed as it gives a file its name
// leaves an empty one there: the same command, typed again, writes it.
func TestAWriteThatWasKilledOnASimpleCardIsTypedAgain(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	strace := exporttest.FindProgram(t, "strace")
	from, to, visit := sources(t, 0o644)
	fill := strings.NewReplacer("VISIT", visit, "FROM", from, "TO", to)
	for _, w := range writings {
		runIn(t, strings.Fields(strings.ReplaceAll(fill.Replace(w.args), "OUT", to))...)
	}
	all := append([]making{
		{"a.visit.toml", "visit begin --visit OUT/a.visit.toml --site Brook --date 2026-05-16 --protocol seven-samples --cautions-read"},
		{"public/index.html", "publish FROM --to OUT/public"},
	}, writings...)
	for _, w := range all {
		if w.made == "tables" || strings.Contains(w.args, "--add") || strings.Contains(w.args, "--write") {
			continue // a folder gets its name at once, and nothing is to be replaced
		}
		for _, name := range []string{"copy-1.toml", "copy-2.toml"} { // those merged were put away
			_ = os.Rename(filepath.Join(from, name+".merged"), filepath.Join(from, name))
		}
		out := t.TempDir()
		if err := os.Mkdir(filepath.Join(out, "in"), 0o777); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(out, w.made)
		if made, _ := filepath.Glob(filepath.Join(to, w.made)); len(made) > 0 {
			path = filepath.Join(out, filepath.Dir(w.made), filepath.Base(made[0]))
		}
		args := strings.Fields(strings.ReplaceAll(fill.Replace(w.args), "OUT", out))
		onACard := []string{"-f", "-o", os.DevNull, "-P", path, "-e", "trace=renameat,renameat2,linkat",
			"-e", "inject=renameat2:error=EINVAL", "-e", "inject=linkat:error=EPERM"}
		killed := exec.Command(strace, slices.Concat(onACard, []string{"-e", "inject=renameat:error=EIO:signal=KILL", "rillkey"}, args)...)
		said, _ := killed.CombinedOutput()
		if data, err := os.ReadFile(path); err != nil || len(data) > 0 {
			t.Errorf("%s: killed, it left %d bytes and %v, and says %s", w.args, len(data), err, said)
			continue
		}
		for _, again := range []*exec.Cmd{
			exec.Command(strace, slices.Concat(onACard, []string{"-e", "inject=renameat:error=EIO", "rillkey"}, args)...),
			exec.Command("rillkey", args...),
		} {
			said, err := again.CombinedOutput()
			failing := again.Args[0] == strace
			if info, is := os.Stat(path); failing == (err == nil) || is != nil || failing == (info.Size() > 0) {
				t.Errorf("%s, typed again: %v, %s, %v", w.args, err, said, is)
			}
		}
	}
}

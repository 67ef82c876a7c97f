//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/scoring/condition"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// strayed are commands that people type in a folder whose name has a blank and a quote,
// and that most of the time cannot do what was meant, in the order in which they are
// typed; with what they answer after <. {A} and {B} are codes of animals. A line that
// begins with ! is for a shell.
const strayed = `
visit list
visit show
visit reopen
identify scud
identify water penny
identify --far counted --answers 1b
identify --count 3 --answers 1b
taxa
taxa zzzzzz
taxa egg --card
taxa shed-skin --card
visit begin --site "Mill Brook" --date 2026-05-16 --protocol riffle-three --people Ann --cautions-read
visit begin --site "Old Ford" --date 2126-05-16 --protocol riffle-three --cautions-read --visit "old ford.visit.toml"
visit show --visit "old ford.visit.toml"
visit add scud
visit add scud --visit "old ford.visit.toml"
visit sample --habitat riffle
!rm "old ford.visit.toml"
visit show
identify --observe legs=6 --observe tails=2
visit sample --habitat riffle
visit conditions --set water-temperature=9
visit conditions --set water-temperature=9.5
visit conditions --set "weather=no such"
visit conditions --set nothing
visit amend --set ph=7
visit amend --set water-temperature=8 --of zzzzzzzz
visit undo
visit add scud 3
visit add scud 2 --who Ann
visit undo
visit undo
visit undo --who Bo
visit add
identify --observe legs=10 --observe forelegs=pincers --see "40 mm"
identify --answers 1b,2a
identify --observe legs=6 --observe tails=2 --count 2
identify --observe legs=6 --observe tails=2 --json
identify --answers 1b --ask
recheck
rates learn early.rates.toml 2026-05-16-mill-brook.visit.toml
recheck draw
recheck look --of zzzzzzzz --who Bo
recheck look --of {A} --who Bo --observe legs=14 --observe flat=tall
identify --observe legs=14 --observe flat=tall
identify --far counted --observe legs=14 --observe flat=tall
recheck settle --of zzzzzzzz --taxon scud
recheck agreement
grade
rillkey
publish . --to public
visit sorted
visit sorted --sample 7
visit enter <sheet
visit begin --site "Mill Brook" --date 2026-05-17 --protocol riffle-three --people Ann --cautions-read
visit sample --habitat riffle
visit show
visit sample --habitat riffle --visit 2026-05-17-mill-brook.visit.toml
grade --visit 2026-05-17-mill-brook.visit.toml
identify --answers 1b
visit add scud
visit finish --visit 2026-05-17-mill-brook.visit.toml
visit add leech --visit 2026-05-17-mill-brook.visit.toml
visit finish
visit finish --visit 2026-05-16-mill-brook.visit.toml
visit show
visit add leech
visit amend
visit reopen --visit 2026-05-17-mill-brook.visit.toml
visit reopen --visit 2026-05-17-mill-brook.visit.toml
publish . --to public
!cp 2026-05-17-mill-brook.visit.toml 'a copy.visit.toml'
visit list
publish . --to public
export --as csv --to tables .
visit merge 2026-05-17-mill-brook.visit.toml
!rm 'a copy.visit.toml'
export --as csv --to tables .
import
import tables
import nowhere
import public
!printf '\n[event]\nnote = 3\n' >> 2026-05-17-mill-brook.visit.toml
import tables
visit show --visit 2026-05-17-mill-brook.visit.toml
!cp 2026-05-17-mill-brook.visit.toml 'b copy.visit.toml'
visit merge 2026-05-17-mill-brook.visit.toml 'b copy.visit.toml' --to both
!mkdir 'cut off' && head -c 60 2026-05-16-mill-brook.visit.toml > 'cut off/x y.visit.toml'
visit show --visit 'cut off/x y.visit.toml'
!cd 'cut off' && rillkey visit show
!cd 'cut off' && printf 'prose' > p.visit.toml && rillkey visit add scud --visit p.visit.toml
rates learn 2026-05-16-mill-brook.visit.toml 2026-05-16-mill-brook.visit.toml
rates learn
rates learn ours.rates.toml 2026-05-16-mill-brook.visit.toml
rates show ours.rates.toml
couplets failures
couplets check nowhere.toml
couplets check --explain all
couplets check --explain zzzz
couplets check --explain unknown-kind
couplets check --explain unknown-sentence
couplets check --explain missing-sentences
couplets check --explain stream-sentences
couplets merge a b
couplets compare a
couplets draft --csv animals.csv --out 'my draft.toml'
couplets draft --csv animals.csv --out 'other draft.toml' --taxa-out 'my taxa'
region check nowhere
region check north-america
region show tables
region pack tables --to x.zip
region new 'our brook'
!cd 'our brook' && rillkey region check
!sed -i 's/^language .*/language = "fr"\nonly_these_cautions = true/' 'our brook/region.toml'
region check 'our brook'
!printf '[say]\n"No such sentence" = "x"\n' > 'our brook/words.toml'
region check 'our brook'
!cp animals.csv bad.zip
region check bad.zip
practice tray cups.toml --as Bo <leave
practice group
practice forget Nobody
practice result --as Nobody
regrade
regrade postgres://nobody@127.0.0.1:1/x
network admit
network begin
print report --visit 2026-05-16-mill-brook.visit.toml --to report.html
demo --plain --keep 'the demo'
visit begin --site "Ann Lee meadow" --date 2026-05-18 --protocol riffle-three --people "Ann Lee" --cautions-read
visit finish --visit 2026-05-18-ann-lee-meadow.visit.toml
publish . --to public
!sed -i '0,/^count = /s//count = banana/' 2026-05-16-mill-brook.visit.toml
visit show --visit 2026-05-16-mill-brook.visit.toml
`

// answersStrayed are what is typed where a command asks.
var answersStrayed = map[string]string{"sheet": "stonefly 2\n1 4\n" + eachRow(), "leave": "q\nq\n"}

// eachRow counts one in each of the rows.
func eachRow() string {
	var out strings.Builder
	for i := range 26 {
		fmt.Fprintf(&out, "%d 1\n", i+1)
	}
	return out.String()
}

// notStrayed are sentences with a command that no command line of a test says, with where
// they are looked at.
var notStrayed = map[string]string{
	"As a file for the laptop":                            "a page for phones: no shell is at hand",
	"A trainer reads it":                                  "a page for phones",
	"make the page again with":                            "a page for phones",
	"another program changed the file meanwhile":          "scoring/visit: TestAForeignEditIsNeverCutBack",
	"the network is ready":                                "TestOnAServer",
	"%w; its owner mends that by":                         "TestOnAServer",
	"the header was changed by hand":                      "a server keeps it",
	"Written by rillkey on":                               "a comment in what is exported",
	"Made with rillkey":                                   "a report's foot",
	"with 'rillkey practice tray'":                        "where a rate comes from",
	"What one person practised":                           "a comment in that person's file",
	"What is wrong with it is told by":                    "a comment in a drafted key",
	"'rillkey import' reads the tables of a year back":    "a page for everybody",
	"To type it in: rillkey":                              "a sheet of paper",
	"Example 1: the presence index":                       "a comment in what is exported",
	"the grades as rillkey gave them":                     "a comment in what is exported",
	"drafted by rillkey":                                  "the source in a drafted key",
	"rillkey names a stream animal by questions that a b": "the welcome",
	"couplet %s decides nothing":                          "couplets-renumber.txtar",
	"row %d has several records":                          "scoring/sheet",
	"What does it do?":                                    "what-does-it-do.txtar",
	"All conditions are noted":                            "TestAllConditionsNotedSayHowOneIsCorrected",
}

// What is printed for a person to type is a whole command: it is found by running, has no
// word in capitals in the place of a value, is taken by the program, and goes to the
// visit that it was said of.
func TestWhatIsPrintedCanBeTypedBack(t *testing.T) {
	if testing.Short() {
		t.Skip("it runs every hint")
	}
	t.Parallel()
	h := &hinted{T: t, dir: filepath.Join(t.TempDir(), "Mill Brook's visits"), seen: map[string]string{}}
	h.write("animals.csv", "taxon,legs,shell\nbeetle,6,no\nsnail,0,yes\nworm,0,no\n")
	h.write("cups.toml", "[cup.1]\ntaxon = \"no such kind\"\n")
	h.strays()
	if len(h.order) < 40 {
		t.Errorf("only %d hints were met", len(h.order))
	}
	h.sentences()
	t.Logf("%d hints", len(h.order))
}

// hinted gathers what a person is told to type.
type hinted struct {
	*testing.T
	dir   string
	said  strings.Builder
	a, b  string            // codes of animals
	seen  map[string]string // the hints, and what was typed before
	order []string
}

func (h *hinted) write(name, text string) {
	h.Helper()
	path := filepath.Join(h.dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		h.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		h.Fatal(err)
	}
}

// shell types a line in a folder; one that says nothing to a shell goes to the resident.
func (h *hinted) shell(dir, line, input string) (said string, status int) {
	h.Helper()
	if args, ok := strings.CutPrefix(line, "rillkey"); ok && !strings.ContainsAny(line, "'\"\\`$&|;<>(){}[]*?!~#\n") {
		done, err := do(os.Getenv("PATH"), errand{dir, strings.Fields(args), []byte(input)})
		if err != nil {
			h.Fatal(err)
		}
		return string(done.Out) + string(done.Err), done.Status
	}
	cmd := exec.Command("sh", "-c", line)
	var out bytes.Buffer
	cmd.Dir, cmd.Stdin, cmd.Stdout, cmd.Stderr = dir, strings.NewReader(input), &out, &out
	_ = cmd.Run()
	return out.String(), cmd.ProcessState.ExitCode()
}

// strays types all lines, and after each the hints that were new in what it said.
func (h *hinted) strays() {
	for line := range strings.Lines(strings.TrimSpace(strayed) + "\n") {
		command, input, _ := strings.Cut(strings.TrimSpace(line), " <")
		command = strings.NewReplacer("{A}", h.a, "{B}", h.b).Replace(command)
		if rest, ok := strings.CutPrefix(command, "!"); ok {
			command = rest
		} else if command != "rillkey" {
			command = "rillkey " + command
		}
		said, _ := h.shell(h.dir, command, answersStrayed[input])
		h.said.WriteString(said + "\n")
		if m := firstAnimal.FindStringSubmatch(said); m != nil {
			h.a = m[1]
		}
		for _, hint := range hintsIn(said) {
			if h.seen[hint] == "" {
				h.seen[hint] = command
				h.order = append(h.order, hint)
				h.typed(hint, command)
			}
		}
	}
}

var (
	quotedHint = regexp.MustCompile(`'(rillkey [a-z][^']*)'`)
	lineHint   = regexp.MustCompile(`(?m)(?:: |^ *)((?:mkdir [^ ]+ && )?rillkey [a-z].*)$`)
	inCapitals = regexp.MustCompile(`(?:^|[ =/@])[A-Z]{3,}\b`)
)

// hintsIn are the commands that a text tells to type.
func hintsIn(said string) (out []string) {
	for _, m := range quotedHint.FindAllStringSubmatch(strings.Join(strings.Fields(said), " "), -1) {
		out = append(out, m[1])
	}
	for _, m := range lineHint.FindAllStringSubmatch(said, -1) {
		if !strings.HasPrefix(m[1], "rillkey names ") {
			out = append(out, strings.TrimRight(m[1], "."))
		}
	}
	return slices.Compact(out)
}

// typed types a hint in a copy of the folder.
func (h *hinted) typed(hint, after string) {
	h.Helper()
	if inCapitals.MatchString(hint) {
		h.Errorf("after %s: %s: it stands for something else, in capitals", after, hint)
		return
	}
	there := filepath.Join(h.TempDir(), "Mill Brook's visits")
	if err := os.CopyFS(there, os.DirFS(h.dir)); err != nil {
		h.Fatal(err)
	}
	defer os.RemoveAll(there)
	if said, status := h.shell(there, hint, ""); status == statusMisused || status > statusUntold {
		h.Errorf("after %s: %s ends with %d: %s", after, hint, status, said)
	}
}

// sentences wants each sentence with a command to have been met, but for those of help.
func (h *hinted) sentences() {
	all := strings.Join(strings.Fields(h.said.String()), " ")
	help := helpSays()
	for _, sentence := range language.Sentences() {
		said := hintSaid.MatchString(sentence) && !help[sentence]
		for begins := range notStrayed {
			said = said && !strings.HasPrefix(strings.ToLower(sentence), strings.ToLower(begins))
		}
		if !said {
			continue
		}
		if !regexp.MustCompile(sentenceLike(sentence)).MatchString(all) {
			h.Errorf("nothing here says %q: add a line that does", sentence)
		}
	}
}

var (
	hintSaid = regexp.MustCompile(`'rillkey |: rillkey |^rillkey |\. rillkey `)
	anyValue = regexp.MustCompile(`%[-+#0-9.\[\]*]*[a-zA-Z]`)
)

// sentenceLike is what a sentence looks like with any values, on one line.
func sentenceLike(sentence string) string {
	parts := anyValue.Split(strings.Join(strings.Fields(sentence), " "), -1)
	for i := range parts {
		parts[i] = regexp.QuoteMeta(parts[i])
	}
	return strings.Join(parts, ".*?")
}

// helpSays are the sentences of the help of commands and flags.
func helpSays() map[string]bool {
	out := map[string]bool{}
	var look func(cmd *cobra.Command)
	look = func(cmd *cobra.Command) {
		for _, text := range append(wording.Pieces(cmd.Long), cmd.Short) {
			out[text] = true
		}
		cmd.LocalFlags().VisitAll(func(f *pflag.Flag) { out[f.Usage] = true })
		for _, sub := range cmd.Commands() {
			look(sub)
		}
	}
	look(rootCommand(newApp(world{})))
	return out
}

// Where all conditions are noted, what is told corrects the first of them as it is typed.
func TestAllConditionsNotedSayHowOneIsCorrected(t *testing.T) {
	t.Parallel()
	for _, f := range condition.Parameters() {
		v, ok := sampleOf(f)
		if !ok {
			continue
		}
		again, err := f.Parse(f.Typed(v))
		if err != nil || f.Full(again) != f.Full(v) {
			t.Errorf("%s: %q is read as %q: %v", f.ID, f.Typed(v), f.Full(again), err)
		}
	}
}

// sampleOf is some value of a condition; files have none that is not on the disk.
func sampleOf(f *condition.Parameter) (condition.Value, bool) {
	for _, typed := range []string{"9:30", "7.5 with paper strips", "7.5", "60", "Ann, Bo Lind", "two words; and more"} {
		if v, err := f.Parse(typed); err == nil && f.Form != condition.FilesForm {
			return v, true
		}
	}
	if len(f.Categories) == 0 || f.Form == condition.FilesForm {
		return condition.Value{}, false
	}
	v, err := f.Parse(f.Categories[0].Word)
	if f.Form == condition.PartsForm {
		v, err = f.Parse(f.Categories[0].Word + " 60, " + f.Categories[1].Word + " 40")
	}
	return v, err == nil
}

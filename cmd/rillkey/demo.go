package main

import (
	"cmp"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/demo"
	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func demoCommand(a *app) *cobra.Command {
	var keep string
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "An invented visit from first question to grade, without typing",
		Long: `Replays two invented visits through the same questions, file and grading that a
real one goes through: one with all its samples, one cut short. The site, the
people and the animals do not exist. On a terminal each kind is drawn once.`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return playDemo(a, keep) },
	}
	cmd.Flags().StringVar(&keep, "keep", "", "keep the two visits' files in this `DIR`")
	return cmd
}

// demoSeed makes the ids of the demo the same at every showing.
var demoSeed = [32]byte{'r', 'i', 'l', 'l', 'k', 'e', 'y'}

func playDemo(a *app, keep string) error {
	if a.keyFile == "" { // the script speaks of built-in animals, wherever it is played
		a.regionName = usualRegion
		if err := a.speak(); err != nil {
			return err
		}
	}
	k, err := a.key()
	if err != nil {
		return err
	}
	rules, err := a.rules(k.Catalog())
	if err != nil {
		return err
	}
	visits, err := demo.InventedVisits()
	if err != nil {
		return err
	}
	dir := keep
	if keep == "" {
		var remove func()
		if dir, remove, err = wholefile.ScratchFolder(os.TempDir()); err != nil {
			return wording.Errorf("the demo needs a folder for its files: %w", err)
		}
		defer remove()
	} else if err := os.MkdirAll(dir, 0o777); err != nil {
		return wording.Errorf("--keep %s: the folder cannot be made: %w", keep, err)
	}
	m, err := a.model(k, "")
	if err != nil {
		return err
	}
	shown := &replay{app: a, model: m, rules: rules, dir: dir, random: rand.NewChaCha8(demoSeed),
		atlas: figure.NewAtlas(k.Catalog(), nil), drawn: map[string]bool{}}
	grades := make([]*scoring.Grade, len(visits))
	for i, v := range visits {
		if grades[i], err = shown.visit(i+1, v); err != nil {
			return err
		}
	}
	if a.json {
		return show.JSON(a.stdout, grades)
	}
	if keep != "" {
		fmt.Fprint(a.stdout, "\n"+wording.Sprintf("The files are in %s. To look at the first: rillkey visit show --visit %s",
			plain.Printable(keep), plain.ShellWord(shown.first))+"\n")
	}
	return nil
}

// replay plays invented visits.
type replay struct {
	app    *app
	model  *key.Model
	rules  *scoring.Rules
	dir    string
	random io.Reader
	atlas  *figure.Atlas
	drawn  map[string]bool // the kinds drawn so far
	first  string          // the file of the first visit
}

func (r *replay) visit(turn int, v demo.InventedVisit) (*scoring.Grade, error) {
	out := r.app.talk()
	if r.app.json {
		out = io.Discard
	}
	path := filepath.Join(r.dir, visit.FileName(v.Date(), v.Site, false))
	r.first = cmp.Or(r.first, path)
	now, err := v.Begin(path, usualRegion, r.random)
	if err != nil {
		return nil, err
	}
	fmt.Fprintf(out, "%s%d. %s: %s, %s (invented)\n\n", strings.Repeat("\n", min(1, turn-1)), turn, v.Title, v.Site, v.Date())
	for _, f := range v.Finds {
		now = now.Add(demo.TimePerKind)
		if err := r.find(out, path, now, f); err != nil {
			return nil, err
		}
	}
	if _, err := visit.Append(path, now, v.People[0], visit.Finish{}, r.random); err != nil {
		return nil, err
	}
	return r.grade(out, path)
}

func (r *replay) find(out io.Writer, path string, at time.Time, f demo.Catch) error {
	q, looks, err := f.Name(r.model)
	if err != nil {
		return err
	}
	flags := recordFlags{sample: f.Sample, count: fmt.Sprint(f.Count), cell: f.Cell, note: f.Note}
	body, err := flags.identification(q, f.Length)
	if err != nil {
		return err
	}
	if _, err := visit.Append(path, at, f.Who, body, r.random); err != nil {
		return err
	}
	v := show.NewIdentified(q, f.Length)
	if err := show.ListEntry(out, r.app.width, f.Sample, f.Count, v); err != nil {
		return err
	}
	if err := r.draw(out, v.Drawable()); err != nil {
		return err
	}
	words := q.Model().Key().Catalog().Vocabulary()
	for _, l := range looks {
		if err := show.AnsweredAgain(out, r.app.width, show.Answer(words, l.First), show.Answer(words, l.Anew), l.Probability); err != nil {
			return err
		}
	}
	return nil
}

// draw shows each kind once, small, where screens are shown at all.
func (r *replay) draw(out io.Writer, t *taxa.Taxon) error {
	if t == nil || r.drawn[t.ID] || !r.app.onScreen() {
		return nil
	}
	r.drawn[t.ID] = true
	f := r.atlas.Taxon(t)
	f.Length = taxa.Range{} // lengths are for animals looked at one by one
	return show.DrawFigure(out, show.Room{Width: r.app.width}, f)
}

func (r *replay) grade(out io.Writer, path string) (*scoring.Grade, error) {
	v, err := visit.Read(path)
	if err != nil {
		return nil, err
	}
	g, err := r.rules.Grade(r.rules.Account(v), scoring.GradeOptions{})
	if err != nil {
		return nil, err
	}
	fmt.Fprintln(out)
	return g, show.Grade(out, r.app.width, g, false, "")
}

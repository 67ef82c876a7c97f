package show_test

import (
	"io"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/key/trial"
	"rillkey/key/trial/described"
	"rillkey/taxa"
)

// What a trial of described animals says fits a narrow page, and is the same there.
func TestDescribedAnimalsOnWideAndNarrowPages(t *testing.T) {
	of := func(id string, kind described.AccountKind, odd bool, naming trial.Naming, named ...string) trial.Told {
		return trial.Told{ID: id, Kind: kind, Odd: odd, Taxa: []string{"perlidae"}, Named: named, Naming: naming, True: taxa.Sensitive,
			Likeliest: "perlidae", Probability: 0.93, Questions: 5, CantTells: 2}
	}
	right, wrong := of("a1", described.FullAccount, true, trial.Narrow, "perlidae"),
		of("a2", described.FullAccount, false, trial.Wrong, "baetidae")
	right.Lists = 3
	right.Class, wrong.Class = taxa.Sensitive, taxa.Tolerant
	likely := of("a3", described.YoungAccount, true, trial.NoName)
	likely.Leaning = taxa.Sensitive
	outside := of("a4", described.OutsideAccount, false, trial.Wrong, "oligochaeta", "nosuchworm")
	outside.Taxa, outside.True = nil, ""
	c := catalog(t)
	w := show.NewDescribedAnimals([]trial.Told{right, wrong, likely, outside}, []string{"north-america"}, "author", c)
	for _, width := range []int{40, 80} {
		var page strings.Builder
		if err := w.Text(&page, width); err != nil {
			t.Fatal(err)
		}
		said := strings.Join(strings.Fields(page.String()), " ")
		for _, want := range []string{"4 animals in words", "Odd ids", "Even ids",
			"where no class is sure and one is called likely: 1 right, 0 wrong.",
			"a2, full, " + c.Taxon("perlidae").Name() + ": named " + c.Taxon("baetidae").Name() + ", tolerant", "5 questions",
			"a3, young, " + c.Taxon("perlidae").Name() + ": no name, likely sensitive",
			"a4, outside, nothing in the catalog: named " + c.Taxon("oligochaeta").Name() + " or nosuchworm"} {
			if !strings.Contains(said, want) {
				t.Errorf("%d columns: no %q in\n%s", width, want, page.String())
			}
		}
		listed := map[int]string{40: "lists of marks offered beside them, mean: 1.5", 80: "5.0 2.0 1.5"}[width] // of the two in full
		if !strings.Contains(said, listed) {
			t.Errorf("%d columns: no lists, %q, in\n%s", width, listed, page.String())
		}
		if strings.Contains(said, "a1, full") {
			t.Errorf("%d columns: what was right is listed as a failure", width)
		}
	}
	fits(t, "a trial of described animals", func(out io.Writer, width int) error { return w.Text(out, width) })
}

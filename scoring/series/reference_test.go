package series_test

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// Upstream and downstream, on one day each year.
func TestBesideAReference(t *testing.T) {
	var all []*visit.Visit
	for i, list := range [][]string{good, good, fair, good} {
		day := fmt.Sprintf("%d-05-0%d", 2020+i, 3+i)
		all = append(all, made(fmt.Sprint("up", i), "Upper Ford", day, list...))
		poorer := append([]string{"simuliidae", "hirudinea", "amphipoda", "isopoda"}, list[:2+i%2]...)
		all = append(all, made(fmt.Sprint("down", i), "Below the Works", day, poorer...))
		all = append(all, made(fmt.Sprint("far", i), "Mill Brook", fmt.Sprintf("%d-07-20", 2020+i), fair...))
	}
	table := compareReference(t, "upper  ford", all...)
	for _, p := range table.Places {
		switch r := p.Reference; p.Site {
		case "Below the Works":
			if r == nil || r.Pairs != 4 || !r.Shown || r.Here >= r.There ||
				!strings.HasPrefix(p.Words, fmt.Sprintf("Per cent sensitive animals: %.1f here and %.1f at Upper Ford, in 4 pairs",
					r.Here, r.There)) {
				t.Errorf("%+v %s", r, p.Words)
			}
		default: // the reference itself, and a site with no visit of the same fortnight
			if r != nil {
				t.Errorf("%s: %+v", p.Site, r)
			}
		}
	}
	for _, p := range compareReference(t, "no such site", all...).Places {
		if p.Reference != nil {
			t.Errorf("%+v", p)
		}
	}
}

// One pair says what the samples may explain, and that one pair is one.
func TestOnePairIsOne(t *testing.T) {
	for _, row := range []struct {
		down  []string
		words string
	}{
		{poor, "in 1 pair of visits within 14 days, more than the samples explain; whether it is always so takes three pairs."},
		{good, "in 1 pair of visits within 14 days, no more than the samples may explain."},
	} {
		table := compareReference(t, "Upper Ford", made("u", "Upper Ford", "2024-05-03", good...),
			made("d", "Below the Works", "2024-05-05", row.down...))
		if p := table.Places[0]; p.Reference == nil || p.Reference.Pairs != 1 || !strings.Contains(p.Words, row.words) {
			t.Errorf("%+v %s", p.Reference, p.Words)
		}
	}
}

// By hand: of five earlier visits, five hold midges and leeches each with a chance of
// 5.5/6; all else is gone.
func TestWhatIsUsualHere(t *testing.T) {
	base := []string{"chironomidae", "hirudinea", "plecoptera"}
	table := grade(t, yearly("Otter Run", base, base, base, base, []string{"chironomidae", "hirudinea"},
		[]string{"chironomidae", "tipulidae"})...)
	u := table.Places[0].Usual
	if u == nil || u.Earlier != 5 || u.Found != 1 || u.Expected < 2*5.5/6+4.5/6-1e-9 || u.Expected > 2*5.5/6+4.5/6+1e-9 ||
		len(u.Missing) != 2 {
		t.Fatalf("%+v", u)
	}
	if want := "2.6 were to be expected and 1 was found; not leech (held by 5) and stonefly " +
		"(held by 4)."; !strings.Contains(table.Places[0].Words, want) {
		t.Errorf("%q is missing from %q", want, table.Places[0].Words)
	}
	if few := grade(t, yearly("Otter Run", base, base, base)...).Places[0].Usual; few != nil {
		t.Errorf("%+v", few)
	}
}

func compareReference(t *testing.T, site string, visits ...*visit.Visit) *series.VisitTable {
	t.Helper()
	byFile := map[string]*visit.Visit{}
	var files []string
	for _, v := range visits {
		byFile[v.File] = v
		files = append(files, v.File)
	}
	return series.GradeVisits(rules(t), series.FileSource{Files: files,
		Open: func(f string) (*visit.Visit, error) { return byFile[f], nil }}, series.Options{Today: today, Reference: site})
}

// A visit that names its reference has its word beside a visit there alone, whichever
// effort that was made with, and loses it without one; a site is no reference to itself.
func TestAVisitNamesItsReference(t *testing.T) {
	named := func(v *visit.Visit, site string) *visit.Visit { v.Header.Reference = site; return v }
	up := made("u", "Upper Ford", "2024-05-03", good...)
	table := grade(t, up, named(made("d", "Below the Works", "2024-05-05", good...), "upper ford"),
		named(made("late", "Below the Works", "2024-08-05", good...), "Upper Ford"),
		made("free", "Below the Works", "2023-05-05", good...),
		named(made("self", "Upper  Ford", "2024-09-03", good...), "Upper Ford"))
	for _, r := range table.Rows {
		beside, word := r.ReferenceDay != "", r.Rating != ""
		if wantBeside, wantWord := r.Visit.ID == "d", r.Visit.ID != "late"; beside != wantBeside || word != wantWord || r.Withheld == word {
			t.Errorf("%s: beside %q, word %q, %q", r.Visit.ID, r.ReferenceDay, r.Rating, r.Reason)
		}
	}
	if p := table.Places[0]; p.Reference == nil || p.Reference.Pairs != 1 ||
		!strings.Contains(p.Words, " at Upper Ford, in 1 pair of visits ") {
		t.Errorf("%+v", p)
	}
	for _, r := range table.Rows {
		got, compared := table.ReferenceOf(r.File), r.Visit.ID == "d" || r.Visit.ID == "late"
		if (got != nil) != compared || compared && (got.Words != "") != (r.Visit.ID == "d") {
			t.Errorf("%s: %+v", r.Visit.ID, got)
		}
	}
}

// oneSample is a visit by one hand-net sample of north-west Europe.
func oneSample(id, site, date string, taxa ...string) *visit.Visit {
	v := made(id, site, date, taxa...)
	v.Header.Protocol = "all-habitats-three-minutes"
	v.Events = v.Events[:len(v.Events)/3]
	for i, e := range v.Events {
		if d, ok := e.Body.(visit.Identification); ok {
			d.Sample = "1"
			v.Events[i].Body = d
		}
	}
	return v
}

// Nobody says that single samples explain a difference, nor that pairs vary by what they
// do not.
func TestWhatTellsADifference(t *testing.T) {
	clean := []string{"heptageniidae", "perlidae", "leuctridae", "sericostomatidae", "elmidae"}
	dirty := []string{"chironomidae", "asellidae", "erpobdellidae", "physidae", "oligochaeta"}
	var single, alike []*visit.Visit
	for i := range 3 {
		day := fmt.Sprintf("%d-05-03", 2020+i)
		single = append(single, oneSample(fmt.Sprint("u", i), "Upper Ford", day, clean...),
			oneSample(fmt.Sprint("d", i), "Below the Works", day, dirty...))
		alike = append(alike, made(fmt.Sprint("u", i), "Upper Ford", day, good...),
			made(fmt.Sprint("d", i), "Below the Works", day, poor...))
	}
	for _, c := range []struct {
		name   string
		visits []*visit.Visit
		want   string
	}{
		{"one sample, one pair", single[:2], "; whether that is more than chance, these samples do not say."},
		{"one sample, pairs that all differ by the same", single, "; whether that is more than chance, these samples do not say."},
		{"three samples, pairs that all differ by the same", alike,
			"in 3 pairs of visits within 14 days, more than the samples explain."},
	} {
		if p := compareReference(t, "Upper Ford", c.visits...).Places[0]; !strings.Contains(p.Words, c.want) {
			t.Errorf("%s: no %q in %q", c.name, c.want, p.Words)
		}
	}
}

// A share is told as people work it out: 70 of 420 and 140 of 420 sensitive animals are 16.7
// and 33.3 per cent, on average 25.0.
func TestAShareIsToldAsItIsCounted(t *testing.T) {
	lean := []string{"plecoptera", "chironomidae", "hirudinea", "oligochaeta", "physidae", "isopoda"}
	rich := []string{"plecoptera", "elmidae", "hirudinea", "oligochaeta", "physidae", "isopoda"}
	var all []*visit.Visit
	for i, list := range [][]string{lean, rich, lean, rich} {
		day := fmt.Sprintf("%d-05-03", 2020+i)
		all = append(all, made(fmt.Sprint("u", i), "Upper Ford", day, lean...),
			made(fmt.Sprint("d", i), "Below the Works", day, list...))
	}
	p := compareReference(t, "Upper Ford", all...).Places[0]
	if want := "Per cent sensitive animals: 25.0 here and 16.7 at Upper Ford"; !strings.HasPrefix(p.Words, want) {
		t.Errorf("no %q in %q", want, p.Words)
	}
}

// Where no kind was usual nothing was to be expected, which is said as such.
func TestNothingIsUsualHere(t *testing.T) {
	table := grade(t, yearly("Otter Run", []string{"chironomidae"}, []string{"hirudinea"}, []string{"plecoptera"}, []string{"isopoda"})...)
	if want := "No kind was held by at least half of 3 earlier visits"; !strings.Contains(table.Places[0].Words, want) {
		t.Errorf("no %q in %q", want, table.Places[0].Words)
	}
}

package scoring

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

func TestProgrammesDiffer(t *testing.T) {
	r := rules(t)
	tests := []struct{ label, scheme, taxon, says string }{
		{"a group and its weight", "presence", "perlidae", "sensitive (3)"},
		{"another programme, another group", "presence", "athericidae", "somewhat sensitive (2)"},
		{"and here", "presence-virginia", "athericidae", "sensitive (3)"},
		{"weights by letter", "weighted", "perlidae", "sensitive (5.0 as R, 5.6 as C, 5.3 as D)"},
		{"a tolerance value", "fbi", "perlidae", "tolerance 1"},
		{"what lies below a family has its value", "fbi", "elmidae-adult", "tolerance 4"},
		{"a family score", "bmwp", "perlidae", "score 10"},
		{"an order of many values", "fbi", "diptera", "no value by itself: it may be any of "},
		{"an order of one listed family", "fbi", "isopoda", "no value by itself: it may be "},
		{"no arthropod", "fbi", "oligochaeta", "no value"},
		{"in the modified index it has one", "fbi-modified", "oligochaeta", "tolerance 5"},
		{"never scored", "bmwp", "backbone", "no value"},
		{"nobody knows it", "bmwp", "jackalope", "no value"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			got, err := r.Standing(tt.scheme, tt.taxon)
			if err != nil || got.String() != tt.says &&
				!(strings.HasSuffix(tt.says, " ") && strings.HasPrefix(got.String(), tt.says)) || got.Scheme != tt.scheme {
				t.Errorf("%q, %+v, %v", got, got, err)
			}
		})
	}
	if got, _ := r.Standing("fbi", "isonychiidae"); got.ListedAs != "Oligoneuriidae" || got.Worth != "2" || got.Status != "corroborated" {
		t.Errorf("%+v", got)
	}
	if _, err := r.Standing("magic", "perlidae"); err == nil || !strings.Contains(err.Error(), `"bmwp"`) {
		t.Errorf("an unknown scheme: %v", err)
	}
}

func TestStandingsNameEachListOnce(t *testing.T) {
	var ids []string
	for _, s := range rules(t).Standings("baetidae") {
		ids = append(ids, s.Scheme)
	}
	if got := strings.Join(ids, " "); got != "bmwp fbi-modified fbi presence-virginia presence weighted" {
		t.Error(got)
	}
}

// TestNothingMarkedAbsentIsInTheCatalog says which families have come into the
// catalog since and are to be moved.
func TestNothingMarkedAbsentIsInTheCatalog(t *testing.T) {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := LoadRules(embedded, "", cat); err != nil {
		t.Error(err)
	}
}

// TestAnotherCatalog grades by the rules inside the program with a catalog that
// lacks nearly all their taxa and has a family which they mark as absent.
func TestAnotherCatalog(t *testing.T) {
	traits, err := os.ReadFile(filepath.Join("..", "taxa", "traits.toml"))
	if err != nil {
		t.Fatal(err)
	}
	cat, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: traits}, "beetles.toml": {Data: []byte(`
[taxon.beetle]
rank = "order"
scientific = "Coleoptera"
source = "memory"
[taxon.screech-beetle]
rank = "family"
scientific = "Hygrobiidae"
parent = "beetle"
source = "memory"
`)}}, "theirs")
	if err != nil {
		t.Fatal(err)
	}
	r, err := EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := r.Standing("bmwp", "screech-beetle"); got.Kind != "hygrobiidae" || got.Worth != "5" {
		t.Errorf("the published value of Hygrobiidae: %+v", got)
	}
	if got, _ := r.Standing("bmwp", "beetle"); got.Why != scheme.WhyAmbiguous {
		t.Errorf("a beetle may be a screech beetle: %+v", got)
	}
	if got, _ := r.Standing("presence", "beetle"); got.Why != scheme.WhyNotListed {
		t.Errorf("that list knows beetles by ids which are not there: %+v", got)
	}
	if _, err := LoadRules(embedded, "", cat); err == nil || !strings.Contains(err.Error(), "not-absent") ||
		!strings.Contains(err.Error(), "unknown-taxon") {
		t.Errorf("rules of one's own are read strictly: %v", err)
	}
}

// A name that leaves the kind open counts where all that the animals may be
// beneath it is of one kind, and only there.
func TestANameCountsByWhatItMayBe(t *testing.T) {
	r := rules(t)
	s := r.grader("presence")
	for _, tc := range []struct {
		why      string
		taxon    string
		possible []string
		want     string
	}{
		{"without a list it may be a riffle beetle", "coleoptera", nil, ""},
		{"all are the same kind", "coleoptera", []string{"dytiscidae", "gyrinidae"}, "aquatic beetle"},
		{"a riffle beetle is another kind", "coleoptera", []string{"dytiscidae", "elmidae"}, ""},
		{"what is no beetle was ruled out by the name", "coleoptera", []string{"dytiscidae", "perlidae"}, "aquatic beetle"},
		{"the list says nothing more than the name", "coleoptera", []string{"coleoptera"}, ""},
		{"nothing on the list is a beetle", "coleoptera", []string{"perlidae"}, ""},
		{"a name that is close enough needs no list", "perlidae", []string{"dytiscidae"}, "stonefly"},
	} {
		rec := visit.Record{Identification: visit.Identification{Taxon: tc.taxon, Possible: tc.possible, Count: 1}}
		of := accountOf(r, []visit.Record{rec})
		label := ""
		if b := of.Rows(s.Counting())[0]; b.Why == "" {
			label = s.Kinds[b.Kind].Label
		}
		if label != tc.want {
			t.Errorf("%s %v counts as %q, not %q: %s", tc.taxon, tc.possible, label, tc.want, tc.why)
		}
		if o := of.Outcomes(s.Counting(), &of.Records[0]); (len(o) == 1) != (tc.want != "") || len(o) == 1 &&
			s.Kinds[o[0].Kind].Label != tc.want {
			t.Errorf("%s %v may be %v", tc.taxon, tc.possible, o)
		}
	}
}

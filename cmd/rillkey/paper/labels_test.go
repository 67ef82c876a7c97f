package paper

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/visit"
)

func labelled(site, who string) Labels {
	at := time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
	return Labels{
		Visit: &visit.Visit{
			Header: visit.Header{Site: site, Date: "2026-05-16", People: []string{who}},
			Events: []visit.Event{{ID: "s1", Time: at, Body: visit.Sample{Label: "1", Habitat: "riffle"}},
				{ID: "s2", Time: at, Body: visit.Sample{Label: "2", Habitat: "pool"}}},
		},
		Again: []scoring.RecheckRecord{
			{Record: "r1", Sample: "1", Cell: "B4", Taxon: "perlidae", Name: "golden stonefly", Count: 2},
			{Record: "r2", Sample: "2", Count: 1, Name: "set aside",
				Rivals: []scoring.Alternative{{Name: "crane fly", Chance: 0.5}, {Name: "midge", Chance: 0.4}}},
			{Record: "r3", Sample: "2", Count: 1, Name: "set aside"},
		},
		Rows: 2, Cells: 3, Blank: 5,
	}
}

func TestEverySampleCellAndDoubtfulRecordHasOneLabel(t *testing.T) {
	page, slips, _ := strings.Cut(written(t, TrayLabels(labelled("Alder Run", "Oona"))), "Slips for an expert, one with each vial</h2>")
	for _, want := range []string{"[r1]", "[r2]", "[r3]", "2 x golden stonefly?", "sample 1, cell B4"} {
		if strings.Count(slips, want) != 1 || strings.Count(slips, "Determined by, on:") != 3 {
			t.Errorf("%q stands %d times on the slips", want, strings.Count(slips, want))
		}
	}
	for _, want := range []string{
		">Sample 1<", ">Sample 2<", ">A1<", ">A3<", ">B3<",
		"2026-05-16, sample 1, cell B4", "2 x golden stonefly?", "1 x crane fly or midge?", "1 x not named",
		"[r1]", "[r2]", "[r3]", "Coll. Oona<",
	} {
		if want == "Coll. Oona<" {
			if strings.Count(page, want) != 3 {
				t.Errorf("%q stands %d times, not once on each vial", want, strings.Count(page, want))
			}
			continue
		}
		if strings.Count(page, want) != 1 {
			t.Errorf("%q stands %d times, not once", want, strings.Count(page, want))
		}
	}
	if got := strings.Count(page, "<li><span"); got != 2+6+3+5 {
		t.Errorf("%d labels, not 2 trays, 6 cells, 3 vials and 5 blank ones", got)
	}
}

func TestLabelsWithoutAVisitAreBlank(t *testing.T) {
	page := written(t, TrayLabels(Labels{Trays: 2, Blank: 4}))
	if strings.Count(page, "Sample ____") != 2 || strings.Count(page, "Coll., det.:") != 4 || strings.Contains(page, "Cells of a tray") {
		t.Errorf("not two trays, four vials and no cells:\n%s", page)
	}
	if strings.Contains(written(t, TrayLabels(Labels{Trays: 2})), "Vials") {
		t.Error("a heading without labels")
	}
}

func TestTextOfAVisitStaysTextOnALabelAndFits(t *testing.T) {
	page := written(t, TrayLabels(labelled(strings.Repeat(hostile+"川", 20), hostile)))
	if strings.Contains(page, "<script") || strings.Contains(page, "<b ") {
		t.Error("markup reaches the page")
	}
	for _, tc := range []struct{ text, want string }{
		{"Alder Run", "Alder Run"},
		{"abcdefghijk", "abcdefghij…"},
		{"川川川川川川", "川川川川川…"}, // twice as wide
	} {
		if got := fits(tc.text, 10); got != tc.want {
			t.Errorf("%q in ten letters is %q, not %q", tc.text, got, tc.want)
		}
	}
}

// A4 leaves 190 mm beside its margins, Letter 195.9.
func TestLabelsFitBothSizesOfPaper(t *testing.T) {
	for class, abreast := range map[string]int{
		"tray": traysAbreast, "cell": cellsAbreast, "vial": vialsAbreast, "empty": vialsAbreast, "slip": slipsAbreast} {
		m := regexp.MustCompile(fmt.Sprintf(`\.%s li \{ width: (\d+)mm`, class)).FindStringSubmatch(labelStyle)
		if m == nil {
			t.Fatalf("%s has no width", class)
		}
		if w, _ := strconv.Atoi(m[1]); w*abreast > 190 {
			t.Errorf("%d of %s need %d mm", abreast, class, w*abreast)
		}
	}
	for _, m := range regexp.MustCompile(`font-size: ([0-9.]+)pt`).FindAllStringSubmatch(labelStyle+sheetStyle, -1) {
		if pt, _ := strconv.ParseFloat(m[1], 64); pt < 6 {
			t.Errorf("letters of %s pt are too small", m[1])
		}
	}
	if !regexp.MustCompile(`\.strip \{[^}]*break-inside: avoid`).MatchString(labelStyle) {
		t.Error("a page may end in the middle of a label")
	}
}

func TestParseCells(t *testing.T) {
	for _, row := range []struct {
		text        string
		rows, cells int // -1 for an error
	}{
		{"3x4", 3, 4}, {"4X6", 4, 6}, {"0x0", 0, 0}, {"26x30", 26, 30},
		{"27x3", -1, 0}, {"3x31", -1, 0}, {"3", -1, 0}, {"x4", -1, 0}, {"-1x4", -1, 0}, {"3x4x5", -1, 0},
	} {
		rows, cells, err := ParseCells(row.text)
		if (err != nil) != (row.rows < 0) || err == nil && (rows != row.rows || cells != row.cells) {
			t.Errorf("%s: %d, %d, %v", row.text, rows, cells, err)
		}
	}
}

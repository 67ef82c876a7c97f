package draft

import (
	"math"
	"os"
	"testing"

	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// simple is a model in which every look costs one and nothing is misread.
var simple = Costs{
	Effort: func(taxa.Look) float64 { return 1 },
	Readings: func(t *taxa.Trait) [][]float64 {
		out := make([][]float64, len(t.States))
		for s := range out {
			out[s] = make([]float64, len(out))
			out[s][s] = 1
		}
		return out
	},
}

// Source: Zoo, UCI Machine Learning Repository (Forsyth, 1990); see SOURCE.txt
// beside the file. Its 101 animals make 59 distinct rows, counted with
// "cut -d, -f2- zoo.csv | sort -u | wc -l", less the header.
func TestTheZooIsKeyedNearTheEntropyBound(t *testing.T) {
	data, err := os.ReadFile("../../testdata/published/zoo/zoo.csv")
	if err != nil {
		t.Fatal(err)
	}
	var report authored.Report
	sheet := ReadSheet("zoo.csv", data, &report)
	if sheet == nil {
		t.Fatal(report.Findings())
	}
	if len(sheet.IDs) != 101 || len(sheet.Traits) != 16 {
		t.Fatalf("%d animals, %d features", len(sheet.IDs), len(sheet.Traits))
	}
	table, err := sheet.Table(simple)
	if err != nil {
		t.Fatal(err)
	}
	d, err := New(table, Terms{Leads: 2})
	if err != nil {
		t.Fatal(err)
	}
	ends, animals := 0, 0
	d.Each(func(n *Node, _ int) {
		if !n.End() {
			return
		}
		ends++
		animals += len(n.Taxa)
		for _, x := range n.Taxa {
			if table.apart(x, n.Taxa[0]) {
				t.Errorf("%s and %s differ and share an end", table.Taxa[x].ID, table.Taxa[n.Taxa[0]].ID)
			}
		}
	})
	bound := math.Log2(59)
	t.Logf("59 distinct rows: mean path %.4f, entropy bound %.4f, %.4f times", d.MeanPath(), bound, d.MeanPath()/bound)
	if ends != 59 || animals != 101 || d.MeanPath()/bound >= 1.15 {
		t.Errorf("%d ends for %d animals, %.4f times the bound", ends, animals, d.MeanPath()/bound)
	}
}

package draft

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// Give is the table of some taxa of a catalog as a spreadsheet, its first row the
// names of the columns: [ReadSheet] reads it back. Weights and the words of leads that
// end in a taxon, both by taxon, may be nil. Shares of states are not in it.
func Give(catalog *taxa.Catalog, rows []*taxa.Taxon, weights map[string]float64, words map[string]string) [][]string {
	used := func(say func(*taxa.Taxon) string) bool {
		return slices.ContainsFunc(rows, func(t *taxa.Taxon) bool { return say(t) != "" })
	}
	columns := []struct {
		name string
		say  func(*taxa.Taxon) string
	}{
		{"scientific name", func(t *taxa.Taxon) string { return t.Scientific }},
		{"rank", func(t *taxa.Taxon) string { return t.Rank }},
		{"group", func(t *taxa.Taxon) string { return t.Parent }},
		{"class", func(t *taxa.Taxon) string { return string(t.Class) }},
		{"length (mm)", lengthText},
		{"commonness", func(t *taxa.Taxon) string {
			if w, ok := weights[t.ID]; ok {
				return plain.Number(w)
			}
			return ""
		}},
		{wordingName, func(t *taxa.Taxon) string { return words[t.ID] }},
	}
	for _, trait := range catalog.Vocabulary().Traits() {
		name := strings.ReplaceAll(trait.ID, "-", " ")
		if trait.Look != taxa.Eye {
			name += " (" + string(trait.Look) + ")"
		}
		columns = append(columns, struct {
			name string
			say  func(*taxa.Taxon) string
		}{name, func(t *taxa.Taxon) string { return statesText(t.States(trait.ID)) }})
	}
	out := make([][]string, len(rows)+1)
	out[0] = []string{"animal"}
	for i, t := range rows {
		out[i+1] = []string{strings.ReplaceAll(t.ID, "-", " ")}
	}
	for _, c := range columns {
		if !used(c.say) {
			continue
		}
		out[0] = append(out[0], c.name)
		for i, t := range rows {
			out[i+1] = append(out[i+1], cmp.Or(c.say(t), "?"))
		}
	}
	return out
}

func lengthText(t *taxa.Taxon) string {
	if !t.Length.Known() {
		return ""
	}
	return plain.Number(t.Length.Min) + "-" + plain.Number(t.Length.Max)
}

func statesText(ws []taxa.Weight) string {
	out := make([]string, len(ws))
	for i, w := range ws {
		out[i] = strings.ReplaceAll(w.State, "-", " ")
	}
	return strings.Join(out, "|")
}

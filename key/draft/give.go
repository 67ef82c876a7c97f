package draft

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Give is the table of some taxa of a catalog as a spreadsheet, its first row the
// names of the columns, its next two what is asked of each trait and how often it is
// misread: [ReadSheet] reads it back. Words with a meaning are in the language in use.
// Weights and the words of leads that end in a taxon, both by taxon, may be nil. Shares of
// states are not in it.
func Give(catalog *taxa.Catalog, rows []*taxa.Taxon, weights map[string]float64, words map[string]string) [][]string {
	used := func(say func(*taxa.Taxon) string) bool {
		return slices.ContainsFunc(rows, func(t *taxa.Taxon) bool { return say(t) != "" })
	}
	columns := []sheetColumn{
		{name: wording.Text("scientific name"), say: func(t *taxa.Taxon) string { return t.Scientific }},
		{name: wording.Text("rank"), say: func(t *taxa.Taxon) string { return wording.Text(t.Rank) }},
		{name: wording.Text("group"), say: func(t *taxa.Taxon) string {
			if up := catalog.Taxon(t.Parent); up != nil {
				return called(up.ID, up.Name(), up.Scientific)
			}
			return ""
		}},
		{name: wording.Text("class"), say: func(t *taxa.Taxon) string { return wording.Text(string(t.Class)) }},
		{name: wording.Text("length (mm)"), say: lengthText},
		{name: wording.Text(commonnessName), say: func(t *taxa.Taxon) string {
			if w, ok := weights[t.ID]; ok {
				return plain.FormatFloat(w)
			}
			return ""
		}},
		{name: wording.Text(wordingName), say: func(t *taxa.Taxon) string { return words[t.ID] }},
	}
	for _, trait := range catalog.Vocabulary().Asked() {
		name := called(trait.ID, strings.TrimSuffix(trait.Question, "?"))
		if trait.Look != taxa.Eye {
			name += " (" + wording.Text(looks()[trait.Look]) + ")"
		}
		columns = append(columns, sheetColumn{name, trait.Question, plain.FormatFloat(trait.Misread),
			func(t *taxa.Taxon) string { return statesText(trait, t.States(trait.ID)) }})
	}
	const above = 3
	out := make([][]string, len(rows)+above)
	out[0], out[1], out[2] = []string{wording.Text("animal")}, []string{wording.Text(wordingName)}, []string{wording.Text(misreadName)}
	for i, t := range rows {
		out[i+above] = []string{called(t.ID, t.Name(), t.Scientific)}
	}
	for _, c := range columns {
		if !used(c.say) {
			continue
		}
		out[0], out[1], out[2] = append(out[0], c.name), append(out[1], c.asked), append(out[2], c.misread)
		for i, t := range rows {
			out[i+above] = append(out[i+above], cmp.Or(c.say(t), "?"))
		}
	}
	return out
}

// sheetColumn is a column of a table that is given.
type sheetColumn struct {
	name, asked, misread string // the first three cells; the last two are empty for what is no trait
	say                  func(*taxa.Taxon) string
}

func lengthText(t *taxa.Taxon) string {
	if !t.Length.Known() {
		return ""
	}
	return plain.FormatFloat(t.Length.Min) + "-" + plain.FormatFloat(t.Length.Max)
}

func statesText(trait *taxa.Trait, ws []taxa.Weight) string {
	out := make([]string, len(ws))
	for i, w := range ws {
		whole := trait.States[trait.State(w.State)].Label
		_, label, _ := strings.Cut(whole, ": ") // as a draft has it
		out[i] = called(w.State, label, whole)
	}
	return strings.Join(out, "|")
}

// called is the first of some words that the id is made of, with its capitals, points and
// letters of any script: read back they give the same id. Else it is the id.
func called(id string, words ...string) string {
	for _, w := range words {
		if plain.ID(w) == id && !strings.ContainsAny(w, "|/\n") {
			return w
		}
	}
	return strings.ReplaceAll(id, "-", " ")
}

// GiveKey is [Give] of the animals that a key ends in, with its weights and, of the leads that
// end in one of them alone, the words; of several that do the first.
func GiveKey(catalog *taxa.Catalog, key *couplets.Sound) [][]string {
	words := map[string]string{}
	for _, c := range key.Couplets {
		for _, l := range c.Leads {
			if len(l.Taxa) == 1 && words[l.Taxa[0]] == "" {
				words[l.Taxa[0]] = l.Text
			}
		}
	}
	return Give(catalog, key.Ends, key.Weights(), words)
}

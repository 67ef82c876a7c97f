package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mostColumns are the samples that get a column each in the table of animals.
const mostColumns = 7

// dense is the class of a table in small type; one of few rows is not parted by
// the end of a sheet.
func dense(rows [][]string) string {
	if len(rows) <= 12 {
		return "dense short"
	}
	return "dense"
}

// counted is a taxon with its animals by sample.
type counted struct {
	id, name, class string
	order           int
	bySample        []int // animals, by sample
	total, samples  int   // animals and samples
	least           float64
	looked          bool
}

// animals is the full tally.
func (w *reporting) animals() {
	if len(w.tally.Records) == 0 {
		return
	}
	w.Section(wording.Text("All animals named"))
	head := []string{wording.Text("animal"), wording.Text("class")}
	columns := len(w.tally.Samples) <= mostColumns && len(w.tally.Samples) > 1
	if columns {
		for _, s := range w.tally.Samples {
			head = append(head, wording.Sprintf("sample %s", plain.Printable(s.Label)))
		}
	} else if len(w.tally.Samples) > 1 {
		head = append(head, wording.Text("in samples"))
	}
	head = append(head, wording.Text("animals"), wording.Text("least sure name"))
	looked := slices.ContainsFunc(w.names(), func(n *counted) bool { return n.looked })
	if looked {
		head = append(head, wording.Text("second look"))
	}
	var rows [][]string
	for _, n := range w.names() {
		row := []string{plain.Printable(n.name), n.class}
		if columns {
			for _, c := range n.bySample {
				row = append(row, map[bool]string{true: "", false: fmt.Sprint(c)}[c == 0])
			}
		} else if len(w.tally.Samples) > 1 {
			row = append(row, fmt.Sprint(n.samples))
		}
		row = append(row, fmt.Sprint(n.total), n.sureness())
		if looked {
			row = append(row, map[bool]string{true: wording.Text("yes"), false: wording.Text("no")}[n.looked])
		}
		rows = append(rows, row)
	}
	w.table(dense(rows)+" wide", wording.Text("Animals as counted, by the class of the catalog"), head, rows)
	w.End()
}

func (n *counted) sureness() string {
	switch {
	case n.id == "":
		return wording.Text("no name")
	case n.least == 0:
		return wording.Text("not stated")
	}
	return show.Sure(n.least)
}

// names sums the records up by taxon, in the order of the classes and then by
// number; what was set aside comes last.
func (w *reporting) names() []*counted {
	var all []*counted
	index := map[string]*counted{}
	column := map[string]int{}
	for i, s := range w.tally.Samples {
		column[s.Label] = i
	}
	for _, rec := range w.tally.Records {
		id := rec.Taxon
		if rec.Undecided {
			id = ""
		}
		n := index[id]
		if n == nil {
			n = w.newCounted(id)
			index[id] = n
			all = append(all, n)
		}
		at := column[rec.Sample]
		if n.bySample[at] == 0 {
			n.samples++
		}
		n.bySample[at] += rec.Count
		n.total += rec.Count
		n.looked = n.looked || len(rec.Looks) > 0
		if n.total == rec.Count || rec.Confidence < n.least {
			n.least = rec.Confidence
		}
	}
	slices.SortStableFunc(all, func(a, b *counted) int {
		return cmp.Or(cmp.Compare(a.order, b.order), cmp.Compare(b.total, a.total), strings.Compare(a.name, b.name))
	})
	return all
}

func (w *reporting) newCounted(id string) *counted {
	n := &counted{id: id, bySample: make([]int, max(1, len(w.tally.Samples))), class: wording.Text("open"), order: len(taxa.Classes)}
	switch t := w.Catalog.Taxon(id); {
	case t != nil:
		n.name, n.class = show.BothNames(t), show.ClassWord(t.Class)
		if i := slices.Index(taxa.Classes, t.Class); i >= 0 {
			n.order = i
		}
	case id != "":
		n.name = wording.Sprintf("%s (not in this catalog)", id)
	default:
		n.name, n.order = wording.Text("set aside for a second look"), n.order+1
	}
	return n
}

// indices are all indices with value, rating and source.
func (w *reporting) indices() {
	w.Section(wording.Text("All indices"))
	all := append(slices.Clone(w.Grade.Indices), w.Grade.Further...)
	if !slices.ContainsFunc(all, func(i scoring.Index) bool { return i.Value != nil }) {
		var titles []string
		for _, i := range all {
			titles = append(titles, i.Title)
			w.source(i.Source, i.Status)
		}
		w.Text("", wording.Sprintf("No index has a value: %s. They are %s.", plain.Printable(w.main.Reason), strings.Join(titles, "; ")))
		w.End()
		return
	}
	w.table("dense short", wording.Text("The grade, and other numbers of the same method"),
		[]string{wording.Text("index"), wording.Text("value"), wording.Text("word"), wording.Text("source")},
		w.indexRows(w.Grade.Indices, true))
	if len(w.Grade.Further) > 0 {
		w.table("dense short", wording.Text("Beside the grade, for those who compare streams"),
			[]string{wording.Text("index"), wording.Text("value"), wording.Text("source")},
			w.indexRows(w.Grade.Further, false))
	}
	w.End()
}

func (w *reporting) indexRows(indices []scoring.Index, words bool) (rows [][]string) {
	for n := range indices {
		i := &indices[n]
		row := []string{i.Title}
		from := w.source(i.Source, i.Status)
		if i.RatingSource != "" {
			from += wording.Sprintf("; words %s", w.source(i.RatingSource, cmp.Or(i.RatingStatus, i.Status)))
		}
		switch {
		case i.Value == nil:
			row = append(row, wording.Sprintf("none: %s", plain.Printable(i.Reason)))
		default:
			row = append(row, wording.Number(*i.Value)+reach(i))
		}
		if words {
			row = append(row, wordOf(i))
		}
		rows = append(rows, append(row, from))
	}
	return rows
}

// wordOf is the word in a table: only the headline has one.
func wordOf(i *scoring.Index) string {
	switch {
	case len(i.RatingRange) > 0:
		return wording.Sprintf("between %s", strings.Join(i.RatingRange, wording.Text(" and ")))
	case i.Withheld || !i.Headline:
		return "none"
	case i.RatingProvisional:
		return wording.Sprintf("%s, provisional", i.Rating)
	}
	return i.Rating
}

func reach(i *scoring.Index) string {
	switch {
	case i.Low == nil || i.High == nil || *i.Low == *i.High && *i.Low == *i.Value:
		return ""
	case *i.Low == *i.High:
		return wording.Sprintf(" (closer names: %s, whatever they are)", wording.Number(*i.Low))
	}
	return wording.Sprintf(" (closer names: %s to %s)", wording.Number(*i.Low), wording.Number(*i.High))
}

// source is the number of a source in the list, with how far its figures were
// confirmed.
func (w *reporting) source(text, status string) string {
	if text == "memory" || text == "common practice" {
		return wording.Text(text)
	}
	i := slices.Index(w.sources, text)
	if i < 0 {
		i = len(w.sources)
		w.sources = append(w.sources, text)
	}
	return fmt.Sprintf("[%d] %s", i+1, wording.Text(status))
}

// ending are the sources, the cautions, and what the page was made from.
func (w *reporting) ending() {
	w.Section(wording.Text("Sources"))
	w.source(w.Grade.Protocol.Source, w.Grade.Protocol.Status)
	if o := w.Grade.Effort.Forecast; o != nil {
		w.source(wording.Sprintf("Kinds against samples: %s", o.Source), "")
	} else {
		w.source(wording.Text("Kinds against samples: Colwell et al. 2012, Journal of Plant Ecology 5(1):3-21 (formulas from memory)"), "")
	}
	w.Begin("ol", "note")
	for _, s := range w.sources {
		w.Begin("li", "")
		w.Text("", plain.Printable(s))
		w.End()
	}
	w.End()
	w.Text("note", wording.Text("Memory: the figure is remembered, its text was not seen. Common practice: a rule of the trade "+
		"without one source. Corroborated: another published table agrees."))
	w.End()
	w.Section(wording.Text("Before you go to a stream yourself"))
	w.List("columns", show.Cautions(w.Catalog.Region()))
	w.End()
	w.Begin("footer", "made")
	w.Text("", wording.Sprintf("Made with rillkey from the record of visit %s: %s. %s", plain.Printable(w.Grade.Visit.ID),
		plain.CountOf(len(w.Account.Visit.Events), "entry", "entries"), w.Sum))
	w.Text("", w.Grade.Caution)
	w.End()
}

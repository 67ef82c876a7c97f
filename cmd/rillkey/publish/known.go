package publish

import (
	"slices"
	"strings"
	"sync"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/condition"
	"rillkey/scoring/export"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// known is what is remembered of a visit, which all pages but that of its site go by.
type known struct {
	Name     string             `json:"name"` // in the source
	Mark     string             `json:"mark"`
	IDs      []string           `json:"ids"`   // its own, and those merged into it
	Sites    []string           `json:"sites"` // all names of its site
	Obscured bool               `json:"obscured,omitempty"`
	Finished bool               `json:"finished,omitempty"`
	Taxa     string             `json:"taxa,omitempty"` // ids of those named, sorted, with blanks between
	Spot     *visit.Spot        `json:"spot,omitempty"`
	Animals  int                `json:"animals"`
	Changed  time.Time          `json:"changed"` // of the newest entry
	Naming   bool               `json:"naming,omitempty"`
	Summary  scoring.Summary    `json:"summary"`
	Kinds    []uint16           `json:"kinds,omitempty"` // those of the summary
	Compared condition.Compared `json:"compared,omitempty"`
	Cells    string             `json:"cells"`             // its row in the table of visits, without a place, as [joined] has it
	Problem  string             `json:"problem,omitempty"` // why it has no grade
}

// gather knows every visit of the source, from the memory or by reading it, in the
// order of the source; news tells that the memory is to be written anew.
func gather(o Options, given *givenVisits, done *SiteSummary) (all []*known, news bool) {
	remembered := recall(o)
	out := make([]*known, len(o.Visits.Names))
	problems := make([]string, len(out))
	table := export.NewRowTable(export.Knowledge{Catalog: o.Catalog, Rules: o.Rules})
	var lock sync.Mutex
	read, fresh := 0, false
	series.AtOnce(workers(), len(out), func(i int) {
		name := o.Visits.Names[i]
		mark, err := o.Visits.Mark(name)
		was := remembered[name]
		switch {
		case err != nil:
			problems[i] = wording.Reason(err).Error()
		case was != nil && was.Mark == mark:
			out[i] = was
		default:
			out[i], err = learn(o, given, table, name, mark)
			if err != nil {
				problems[i] = wording.Reason(err).Error()
			}
		}
		lock.Lock()
		defer lock.Unlock()
		fresh = fresh || out[i] != was
		if read++; o.Read != nil {
			o.Read(read)
		}
	})
	for i, k := range out {
		if problems[i] != "" {
			done.Problems = append(done.Problems, problems[i])
		} else if k.Problem != "" {
			done.Problems = append(done.Problems, k.Problem)
		}
	}
	out = slices.DeleteFunc(out, func(k *known) bool { return k == nil })
	return out, fresh || len(out) != len(remembered)
}

// learn reads a visit.
func learn(o Options, given *givenVisits, table *export.RowTable, name, mark string) (*known, error) {
	v, err := o.Visits.Read(name)
	if err != nil {
		return nil, err
	}
	k := &known{Name: name, Mark: mark, IDs: append([]string{v.Header.ID}, v.Header.Joined...), Sites: v.Sites(), Spot: v.Header.Spot}
	k.Obscured, k.Finished = v.Obscured(), v.Finished()
	k.Changed = v.Header.Begun
	for _, e := range v.Events {
		if e.Time.After(k.Changed) {
			k.Changed = e.Time
		}
	}
	k.Changed = k.Changed.UTC()
	k.Naming = export.NamesPerson(v, v.Header.Site)
	by := o.Regional(v.Header)
	a := by.Rules.Account(given.learnt(name, v))
	for _, r := range a.Tally.Records {
		k.Animals += r.Count
	}
	k.Summary, err = by.Rules.Summary(a, o.Seed)
	k.Summary.Reference = v.Header.ComparesWith()
	k.Taxa = taxaOf(a)
	k.Summary.Visit = scoring.Subject{ID: v.Header.ID, Site: v.Header.Site, Date: v.Header.Date}
	if err != nil {
		k.Problem = wording.Sprintf("%s: left out: %v", plain.Printable(name), err)
		return k, nil
	}
	k.Kinds, k.Compared = k.Summary.Kinds, k.Summary.Conditions
	k.Cells = joined(table.Cells(a, by))
	return k, nil
}

func taxaOf(a *account.Account) string {
	var ids []string
	for _, r := range a.Records {
		if r.Known != nil {
			ids = append(ids, r.Known.ID)
		}
	}
	slices.Sort(ids)
	return strings.Join(slices.Compact(ids), " ")
}

// row is the visit for a series.
func (k *known) row() series.Row {
	s := k.Summary
	s.Kinds, s.Conditions = k.Kinds, k.Compared
	return series.Row{File: k.Name, Summary: s}
}

func (k *known) date() string { return k.Summary.Visit.Date }

// cellMark parts the cells of a row that is remembered. It is a character for private use,
// and one text is read many times as fast as a list of eighty.
const cellMark = "\ue000"

func joined(cells []string) string {
	for i, cell := range cells {
		cells[i] = strings.ReplaceAll(cell, cellMark, " ")
	}
	return strings.Join(cells, cellMark)
}

// folded is a name however it is written.
func folded(site string) string { return strings.ToLower(strings.Join(strings.Fields(site), " ")) }

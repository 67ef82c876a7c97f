package export

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// reasonWithheld stands for the reason of an amendment, which must have one.
var reasonWithheld = wording.Mark("reason withheld")

// labels are other labels for the samples of a visit whose own, in whatever case, name
// somebody, or the place.
func (d Discretion) labels(v *visit.Visit) map[string]string {
	names, out := d.kept(v), map[string]string{}
	add := func(label string) {
		label = strings.ToLower(label)
		if label != "" && out[label] == "" && slices.ContainsFunc(names, func(name string) bool { return holdsName(label, name) }) {
			out[label] = fmt.Sprintf("sample %d", len(out)+1)
		}
	}
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case visit.Sample:
			add(b.Label)
		case visit.Identification:
			add(b.Sample)
		case visit.SheetRows:
			add(b.Sample)
		case visit.SameName:
			if b.What == visit.NameSample {
				add(b.Name)
				add(b.Spelling)
			}
		case visit.Amendment:
			add(text(b.Change.Sample))
		}
	}
	return out
}

// LabelsNameSite tells whether the label of a sample holds the name of the site, so that
// another is given away in its place where the site is obscured.
func LabelsNameSite(v *visit.Visit) bool {
	return len(Discretion{People: true}.labels(visit.Withhold(v))) > 0
}

func (m mask) sample(label string) string {
	if other := m.label[strings.ToLower(label)]; other != "" {
		return other
	}
	return label
}

// wordless is an event without the words of those who made it.
func (m mask) wordless(e visit.Event) visit.Event {
	if !m.d.Wordless {
		return e
	}
	switch b := e.Body.(type) {
	case visit.Sample:
		b.Label, b.Effort = m.sample(b.Label), ""
		e.Body = b
	case visit.Identification:
		b.Sample, b.Note, b.Cell = m.sample(b.Sample), "", ""
		for _, t := range visit.RecordTexts() {
			*t.Text(&b) = ""
		}
		e.Body = b
	case visit.SheetRows:
		b.Sample = m.sample(b.Sample)
		e.Body = b
	case visit.SameName:
		if b.What == visit.NameSample {
			b.Name, b.Spelling = m.sample(b.Name), m.sample(b.Spelling)
		}
		e.Body = b
	case visit.Amendment:
		b.Reason, b.Change = wording.Text(reasonWithheld), m.change(b.Change)
		e.Body = b
	case visit.SecondLook:
		b.Note = ""
		e.Body = b
	case visit.Finish:
		b.Note = ""
		e.Body = b
	case visit.Conditions:
		e.Body = visit.Conditions{Values: measured(b.Values)}
	}
	return e
}

func (m mask) change(ch visit.Change) visit.Change {
	words := []**string{&ch.Note, &ch.Effort, &ch.Cell}
	for _, t := range visit.RecordTexts() {
		words = append(words, t.Change(&ch))
	}
	for _, one := range words {
		*one = instead(*one, func(string) string { return "" })
	}
	ch.Sample, ch.Conditions = instead(ch.Sample, m.sample), instead(ch.Conditions, measured)
	return ch
}

// measured are the values without texts, names of files and of instruments.
func measured(vs condition.Values) condition.Values {
	out := maps.Clone(vs)
	vs.Each(func(f *condition.Parameter, v condition.Value) {
		if f.Form == condition.TextForm || f.Form == condition.FilesForm {
			delete(out, f.ID)
			return
		}
		v.Instrument = ""
		out[f.ID] = v
	})
	return out
}

// NamesPerson tells whether a text has a name of somebody of the visit in it: all of
// it, or a word of it that begins with a capital.
func NamesPerson(v *visit.Visit, text string) bool {
	return slices.ContainsFunc(Discretion{Places: true}.kept(v), func(name string) bool {
		first, _ := utf8.DecodeRuneInString(name)
		return (unicode.IsUpper(first) || strings.Contains(name, " ")) && holdsName(text, name)
	})
}

package show

import (
	"io"
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Text writes the identification for a person. What it came to stands last, since
// the end is what a low screen still shows: the name, its class, how sure it is.
func (v *Identified) Text(w io.Writer, width int) error {
	return v.TextWith(w, width, wording.Text("its family too: 'rillkey identify --far end'"))
}

// TextWith is [Identified.Text] where closer says how somebody comes to a closer name
// than the visit asks for.
func (v *Identified) TextWith(w io.Writer, width int, closer string) error {
	p := newPage(w, width)
	v.closer = closer
	v.otherNames(p)
	switch {
	case v.NothingFits && v.Name != "" && v.Check == nil && v.conflict != "":
		p.item("Against it", "%s: what is named does not show that. Look again; if it stands, it may be another animal.", v.conflict)
	case v.NothingFits:
		p.text(0, 0, "No kind in this key shows all of that: an answer was misread, or the animal is not in the key.")
	}
	v.heading(p)
	v.class(p)
	v.confidence(p)
	return p.err
}

// otherNames is all that stands beside the name.
func (v *Identified) otherNames(p *page) {
	if v.answers != "" {
		p.item("Seen", "%s", v.answers)
	}
	if len(v.Doubts) > 0 && v.Doubts[0].Misread > worthAWord {
		d := v.Doubts[0]
		p.item("Look again", "%s: %s", d.Seen, Misread(d.Misread))
	}
	v.also(p)
	if v.OneOf == nil && v.taxon != nil && len(v.taxon.Common) > 1 {
		p.item("Also called", "%s", strings.Join(v.taxon.Common[1:], ", "))
	}
	switch {
	case v.Size != nil:
		p.item("Size", "%s", v.Size.Remark)
	case v.OneOf == nil && v.taxon != nil && v.taxon.Length.Known():
		p.item("Size", "grown ones are %s; young ones are smaller", LengthRange(v.taxon.Length))
	}
	for _, line := range careLines(v.toHandle()) {
		p.item(line.Label, "%s", line.Text)
	}
}

// Brief is what it came to in one line: the name, its class, how sure it is.
func (v *Identified) Brief() string {
	switch {
	case v.Level == key.NotInKey:
		return wording.Sprintf("None of the kinds in this key, tolerance %s", v.Class)
	case v.Level == key.ToClass:
		return wording.Sprintf("No name: %s", strings.ToLower(classHeading(v.Class, v.ClassConfidence)))
	case v.Undecided():
		return wording.Sprintf("Set aside for a second look, tolerance %s", v.Class)
	case v.OneOf != nil:
		return plain.Printable(v.Name) + ", " + v.Class + ", " + Sure(v.Confidence)
	}
	return plain.Printable(BothNames(v.taxon)) + ", " + v.Class + ", " + Sure(v.Confidence)
}

// toHandle are the taxa whose handling matters: all of a set, else the one named.
func (v *Identified) toHandle() []*taxa.Taxon {
	switch {
	case v.OneOf != nil:
		return v.set
	case v.taxon != nil:
		return []*taxa.Taxon{v.taxon}
	}
	return nil
}

func (v *Identified) heading(p *page) {
	switch {
	case v.Check != nil:
		v.checkHeading(p)
	case v.Level == key.NotInKey:
		p.text(0, 0, "None of the kinds that this key holds")
		p.text(2, 2, "It looks most like: %s. Set it aside for a second look.", BothNames(v.looks()))
	case v.Level == key.ToClass:
		p.text(0, 0, "%s", classHeading(v.Class, v.ClassConfidence))
		v.holding(p, wording.Text("Which one it is is not settled"))
	case v.Undecided():
		p.text(0, 0, "Set aside for a second look")
		v.holding(p, wording.Text("Nothing is sure yet"))
	case v.OneOf != nil:
		p.text(0, 0, "%s", v.Name)
		if v.toldApart() {
			p.text(2, 2, "which of them it is stays open: what tells them apart is easily misread")
		} else {
			p.text(2, 2, "this key cannot tell them apart")
		}
	default:
		p.text(0, 0, "%s", heading(v.taxon))
		switch {
		case v.Level == key.ToGroup && v.NotInKey >= v.Confidence/2:
			p.text(2, 2, "most likely one that this key does not hold; it looks most like: %s", BothNames(v.likeliest))
		case v.Enough:
			p.text(2, 2, "enough for this visit's sheet; %s", v.closer)
		case v.Level == key.ToGroup:
			p.text(2, 2, "which of these it is stays open")
		}
	}
}

// toldApart reports whether the catalog knows what tells those of one end point apart.
func (v *Identified) toldApart() bool {
	for _, t := range v.set {
		for _, m := range t.Mistaken {
			if slices.ContainsFunc(v.set, func(o *taxa.Taxon) bool { return o.ID == m.Taxon }) {
				return true
			}
		}
	}
	return false
}

// looks is what an animal that the key does not hold looks like.
func (v *Identified) looks() *taxa.Taxon {
	if v.lookalike != nil {
		return v.lookalike
	}
	return v.likeliest
}

// The probabilities from which a class is called certain, and very likely.
const (
	certain    = 0.97
	veryLikely = 0.9
)

func classHeading(class string, p float64) string {
	word := wording.Text("Very likely")
	switch {
	case p >= certain:
		word = wording.Text("Certainly")
	case p < veryLikely:
		word = wording.Text("Likely")
	}
	if class == string(taxa.NotScored) {
		return wording.Sprintf("%s not a kind that counts in the grade", word)
	}
	return wording.Sprintf("%s a %s kind", word, class)
}

// holding says what taxon all that is possible belongs to.
func (v *Identified) holding(p *page, open string) {
	if v.enclosing != nil {
		p.text(2, 2, "%s; it is one of: %s.", open, BothNames(v.enclosing))
		return
	}
	p.text(2, 2, "%s; it could be animals of very different kinds.", open)
}

func (v *Identified) checkHeading(p *page) {
	name := BothNames(v.supposed)
	switch v.Check.Outcome {
	case key.CheckConfirmed:
		p.text(0, 0, "Yes: %s", name)
	case key.CheckRefuted:
		p.text(0, 0, "No: not %s", name)
		if v.taxon != nil {
			p.text(2, 2, "it is %s", heading(v.taxon))
		} else {
			p.text(2, 2, "most likely: %s", BothNames(v.likeliest))
		}
	default:
		p.text(0, 0, "Open: perhaps %s, perhaps not", name)
		p.text(2, 2, "set it aside for a second look")
	}
}

func (v *Identified) class(p *page) {
	if v.ClassConfidence > 0 && v.Level != key.ToKind {
		p.item("Tolerance", "%s: %s", classLine(v.Class), Sure(v.ClassConfidence))
		return
	}
	if v.LikelyClass != "" {
		p.item("Tolerance", "open, but likely %s (%s)", v.LikelyClass, chance(v.LikelyClassBy))
		return
	}
	p.item("Tolerance", "%s", classLine(v.Class))
}

// confidence puts in words how probable the name is, the number beside them.
func (v *Identified) confidence(p *page) {
	switch {
	case v.Check != nil:
		p.item("Confidence", "is it that? %s; against %s alone, which comes closest: %s", Likely(v.Check.Probability), v.rival.Name(),
			Likely(v.Check.AgainstRival))
	case v.Level == key.ToGroup:
		p.item("Confidence", "%s: how probable it is that it is one of these, given all the answers", Sure(v.Confidence))
	case v.Name != "":
		p.item("Confidence", "%s: how probable the name is, given all the answers", Sure(v.Confidence))
	case v.Level == key.NotInKey:
		p.item("Confidence", "that it is none of them: %s", Likely(v.NotInKey))
	default:
		p.item("Confidence", "too little for a name; the likeliest, %s, is at %.2f", v.likeliest.Name(), notRoundedUp(v.LikeliestBy))
	}
}

func classLine(class string) string {
	switch class {
	case string(taxa.Sensitive):
		return wording.Text("sensitive (its kind needs clean, well-aired water)")
	case string(taxa.SomewhatSensitive):
		return wording.Text("somewhat sensitive (its kind bears a little pollution)")
	case string(taxa.Tolerant):
		return wording.Text("tolerant (its kind can live in polluted water, and in clean water too)")
	case string(taxa.NotScored):
		return wording.Text("not scored (it does not count in the grade)")
	}
	return wording.Text("open: what is still possible differs in it")
}

// heading is a taxon with its rank, where that is a formal one, and its stage, where the
// name does not say it.
func heading(t *taxa.Taxon) string {
	name := BothNames(t)
	var kind []string
	if t.Rank != "group" {
		kind = append(kind, wording.Text(t.Rank))
	}
	if stage := wording.Text(t.Stage); t.Stage != "" && !strings.Contains(name, stage) {
		kind = append(kind, stage)
	}
	if len(kind) == 0 {
		return name
	}
	return name + ": " + strings.Join(kind, ", ")
}

// mostNamed is how many possibilities are named; a longer list helps nobody.
const mostNamed = 6

// mostBeside is how many are named beside a name that is given.
const mostBeside = 3

func (v *Identified) also(p *page) {
	if v.Level == key.SetAside && len(v.Possible) > 2*mostNamed {
		p.item("Could be", "any of %d kinds; what was said leaves too many to list", len(v.Possible))
		return
	}
	most, named := mostNamed, 0
	if !v.Undecided() {
		most = mostBeside
	}
	for _, o := range v.Also {
		switch {
		case o.Probability == nil:
			p.item("Look-alike", "%s: %s", o.Name, o.TellApart)
		case named < most:
			name := o.Name
			if o.NotInKey {
				name += wording.Text(", not in this key")
			}
			p.item("Could be", "%s, %.2f; to tell: %s", name, notRoundedUp(*o.Probability), o.TellApart)
			named++
		}
	}
}

// ListEntry writes an identification as one entry of a list: how many of which
// sample, name, tolerance and confidence.
func ListEntry(w io.Writer, width int, sample string, n int, v *Identified) error {
	p := newPage(w, width)
	name := wording.Text("set aside for a second look")
	switch {
	case v.Name != "":
		name = v.Name + ", " + Sure(v.Confidence)
	case v.Level == key.ToClass:
		name = wording.Text("no name")
	}
	p.text(0, 4, "Sample %s, %d x %s: %s", sample, n, name, v.Class)
	return p.err
}

// AnsweredAgain writes an answer that was looked at again as a line below an entry.
func AnsweredAgain(w io.Writer, width int, answer, anew string, misread float64) error {
	p := newPage(w, width)
	p.text(4, 6, "looked again at \"%s\", %s; now: %s", answer, Misread(misread), anew)
	return p.err
}

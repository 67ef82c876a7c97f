package account

import (
	"cmp"
	"math"
	"slices"

	"rillkey/scoring/scheme"
	"rillkey/scoring/tray"
	"rillkey/scoring/visit"
	"rillkey/taxa/sorting"
)

// judgement is what the records of a visit are, taken together.
type judgement struct {
	*tray.Judged
	parts [][]part // by record
	open  []int    // by part: its place among those that differ from draw to draw, or -1
}

// part is animals of a record that are judged as one.
type part struct {
	number int      // among all parts of the visit
	taxa   []string // what they may be
	count  int64
}

// mostParts is into how many parts a record is cut whose broad name may be several
// kinds at once.
const mostParts = 4

// together judges all records once; nil where no fauna is known.
func (a *Account) together() *judgement {
	if a.judged == nil {
		if h := a.hear(); h != nil {
			a.judged = a.judge(h)
		}
	}
	return a.judged
}

// hear tells once what each record may be; nil where no fauna is known.
func (a *Account) hear() *hearing {
	if a.heardAs != nil {
		return a.heardAs
	}
	if f := fitting(a.faunas, a.Records); f != nil {
		h := &hearing{Fauna: f, extra: map[string]int{}, names: make([]heardName, len(a.Records))}
		for i := range a.Records {
			r := &a.Records[i]
			h.names[i].Name, h.names[i].taxa = h.name(a.heard(r.Record), r)
		}
		a.heardAs = h
	}
	return a.heardAs
}

func (a *Account) judge(h *hearing) *judgement {
	var t tray.Tray
	samples, heaped := map[string]int{}, a.heaped(h.Fauna)
	j := &judgement{parts: make([][]part, len(a.Records))}
	for i := range a.Records {
		r := &a.Records[i]
		n, known := samples[r.Sample]
		if !known {
			n = len(samples)
			samples[r.Sample] = n
		}
		name, ids := h.names[i].Name, h.names[i].taxa
		name.Sample, name.Heap = n, heaped[r.Sample] && a.told(h.Fauna, r)
		for _, count := range parts(r, len(ids) > 1) {
			j.parts[i] = append(j.parts[i], part{len(t.Names), ids, count})
			t.Names = append(t.Names, name)
		}
		t.Half, t.Twice = t.Half+fits(r.FitsHalf), t.Twice+fits(r.FitsTwice)
	}
	t.Samples, t.Prior = len(samples), h.wholePrior()
	j.Judged = t.Judge(0)
	j.open = make([]int, len(t.Names))
	for i := range j.open {
		j.open[i] = -1
	}
	for i, name := range j.Open {
		j.open[name] = i
	}
	return j
}

// heaped are the samples in which like animals were counted together.
func (a *Account) heaped(f *Fauna) map[string]bool {
	out := map[string]bool{}
	for i := range a.Records {
		if r := &a.Records[i]; r.Count > 1 && a.told(f, r) {
			out[r.Sample] = true
		}
	}
	return out
}

// told reports whether animals have the name of one kind, or were keyed, so that
// those of another kind would have another name.
func (a *Account) told(f *Fauna, r *BoundRecord) bool {
	return r.Decided() && (len(r.Path) > 0 || len(f.kinds(r.Taxon)) == 1)
}

// parts are the animals of a record that are judged as one. Those that nobody keyed,
// and that have a broad name for certain, may be several kinds.
func parts(r *BoundRecord, several bool) []int64 {
	n := int64(1)
	if several && r.Decided() && len(r.Path) == 0 && (r.Confidence == 0 || r.Confidence >= 1) {
		n = min(mostParts, int64(r.Count))
	}
	out := make([]int64, n)
	for i := range out {
		out[i] = (int64(r.Count) + int64(i)) / n
	}
	return out
}

// heard is what a record says by itself: its own chances, and of what they leave over
// that anything is possible, unless they are those of all kinds.
func (a *Account) heard(rec visit.Record) []visit.Chance {
	b := a.firstBelief(rec)
	named := !rec.Undecided && rec.Taxon != ""
	switch also, left := shares(rec.Also); {
	case named && rec.Confidence > 0 && rec.Confidence < 1 && len(also) > 0:
		b = a.stated(rec)
	case !named && len(also) > 0 && wholeBelief(rec):
		for i := range also {
			also[i].Probability /= 1 - left
		}
		b = gather(also)
	}
	for _, look := range rec.Looks {
		b = a.lookedAgain(b, look)
	}
	return b
}

// stated are the chances as a record states them: its name has what those beneath it
// leave of how sure it is.
func (a *Account) stated(rec visit.Record) []visit.Chance {
	also, left := shares(rec.Also)
	own := rec.Confidence
	for _, c := range also {
		if a.catalog.IsUnder(c.Taxon, rec.Taxon) {
			own -= c.Probability
		}
	}
	if own = min(max(own, 0), left); left-own < leastLeft || wholeBelief(rec) {
		own = left
	}
	return gather(append([]visit.Chance{{Taxon: rec.Taxon, Probability: own}, {Taxon: UnknownTaxon, Probability: left - own}}, also...))
}

// wholeBelief reports whether a record keeps the chances of all kinds but those that
// hardly have any, as the key's belief had them. What they lack then is doubt because
// no kind showed all that was said, which is in those chances already: taken for
// "anything is possible", it made of careless people's animals what else was common.
func wholeBelief(rec visit.Record) bool { return rec.FitsTwice > 0 && len(rec.Also) < mostAlso }

// mostAlso are the kinds that a record keeps at most.
const mostAlso = 40

// fits is the logarithm of how much better a record fits people who misread more or
// less often; 0 where nobody said.
func fits(times float64) float64 {
	if times <= 0 {
		return 0
	}
	return max(-mostFit, min(mostFit, math.Log(times)))
}

// mostFit bounds what one record says of those who made it.
const mostFit = 3

// leastLeft is what the chances of a record must leave over to mean that anything is
// possible. Less is what no record keeps.
const leastLeft = 0.006

// hearing turns what records say into likelihoods of the fauna's kinds.
type hearing struct {
	*Fauna
	extra map[string]int // taxa that the fauna lacks
	names []heardName    // by record
}

// heardName is a record's name as a tray takes it, with the taxa of its kinds.
type heardName struct {
	tray.Name
	taxa []string
}

// name gives the kinds that a record may be, the likeliest first, with their taxa.
// Its chances were made from the fauna's commonness, which is taken out of them.
func (h *hearing) name(b []visit.Chance, r *BoundRecord) (out tray.Name, ids []string) {
	type one struct {
		kind  int
		taxon string
		p     float64
	}
	var all []one
	add := func(kind int, taxon string, p float64) {
		if i := slices.IndexFunc(all, func(o one) bool { return o.taxon == taxon }); i >= 0 {
			all[i].p += p
		} else {
			all = append(all, one{kind, taxon, p})
		}
	}
	for _, c := range b {
		kinds := h.may(c.Taxon, r)
		sum := 0.0
		for _, k := range kinds {
			sum += h.prior[k]
		}
		switch {
		case c.Taxon != UnknownTaxon && len(kinds) == 0:
			add(h.stranger(c.Taxon), c.Taxon, c.Probability)
		case len(kinds) == 1 && c.Taxon != UnknownTaxon:
			add(kinds[0], c.Taxon, c.Probability)
		default:
			for _, k := range kinds {
				add(k, h.ids[k], c.Probability*h.prior[k]/sum)
			}
		}
	}
	sorting.Stable(all, func(a, b one) int { return cmp.Or(cmp.Compare(b.p, a.p), cmp.Compare(a.taxon, b.taxon)) })
	for _, o := range all {
		out.Kinds, out.Likelihoods = append(out.Kinds, o.kind), append(out.Likelihoods, o.p/h.common(o.kind))
		ids = append(ids, o.taxon)
	}
	return out, ids
}

// may are the kinds that a taxon may be: anything where nothing is said, and of
// those beneath a name those that could not be excluded, where any is among them.
func (h *hearing) may(taxon string, r *BoundRecord) []int {
	if taxon == UnknownTaxon {
		all := make([]int, len(h.ids))
		for i := range all {
			all[i] = i
		}
		return all
	}
	kinds := h.kinds(taxon)
	if taxon != r.Taxon || len(kinds) < 2 {
		return kinds
	}
	var left []int
	for _, k := range kinds {
		if slices.Contains(r.Possible, h.ids[k]) {
			left = append(left, k)
		}
	}
	if len(left) > 0 {
		return left
	}
	return kinds
}

func (h *hearing) stranger(taxon string) int {
	i, known := h.extra[taxon]
	if !known {
		i = len(h.prior) + len(h.extra)
		h.extra[taxon] = i
	}
	return i
}

// common is how common a kind is; one that the fauna lacks is as common as its
// rarest.
func (h *hearing) common(kind int) float64 {
	if kind < len(h.prior) {
		return h.prior[kind]
	}
	return slices.Min(h.prior)
}

func (h *hearing) wholePrior() []float64 {
	out := slices.Clone(h.prior)
	for range h.extra {
		out = append(out, slices.Min(h.prior))
	}
	sum := 0.0
	for _, p := range out {
		sum += p
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

// chances are what a record is, taken together with all others.
func (j *judgement) chances(record int) (out []visit.Chance) {
	all, count := j.parts[record], int64(0)
	for _, p := range all {
		count += p.count
	}
	for i, taxon := range all[0].taxa {
		sum := 0.0
		for _, p := range all {
			sum += float64(p.count) / float64(count) * j.Chances[p.number][i]
		}
		if sum > 0 {
			out = append(out, visit.Chance{Taxon: taxon, Probability: sum})
		}
	}
	return out
}

// Ways are ways in which all records may turn out together.
type Ways struct {
	Number int
	counts []int64 // what never differs, by kind
	open   []openPart
	judged *judgement
}

type openPart struct {
	place int     // among those that differ from draw to draw, or -1 where it is the same in all
	kinds [][]int // by what it may be: the scheme's kinds that this may be of
	count int64
}

// Ways are those of some rows as a scheme counts them; nil where the records are not
// judged together.
func (a *Account) Ways(c scheme.Counting, rows []Counted) *Ways {
	if w := a.oneWay(c, rows); w != nil {
		return w
	}
	j := a.together()
	if j == nil || j.Draws == 0 {
		return nil
	}
	w := &Ways{Number: j.Draws, counts: make([]int64, len(c.Kinds.Kinds)), judged: j}
	for _, b := range rows {
		left := b.Animals
		parts := j.parts[b.place]
		for n, p := range parts {
			count := left / int64(len(parts)-n)
			left -= count
			w.add(c, b.BoundRecord, p, count)
		}
	}
	return w
}

// oneWay is the only way there is where each row is of one kind of the scheme whichever of
// its taxa it is, so that nothing need be judged; nil where there are more, or no fauna is
// known. Most visits of a folder are typed in from sheets and are so.
func (a *Account) oneWay(c scheme.Counting, rows []Counted) *Ways {
	h := a.hear()
	if h == nil {
		return nil
	}
	w := &Ways{Number: 1, counts: make([]int64, len(c.Kinds.Kinds))}
	for i := range rows {
		b := &rows[i]
		kind, one := b.soleKind(c, h.names[b.place].taxa)
		if !one {
			return nil
		}
		if kind != scheme.None {
			w.counts[kind] += b.Animals
		}
	}
	return w
}

// soleKind is the kind that all of some taxa are of; one tells that there is no other.
func (b *Counted) soleKind(c scheme.Counting, may []string) (kind int, one bool) {
	if len(may) == 1 && may[0] == b.Taxon && b.Decided() {
		return b.Kind, b.Why != scheme.WhyAmbiguous
	}
	for i, id := range may {
		p := placeChance(c.Kinds, b.BoundRecord, id)
		if len(p.Open) > 0 || i > 0 && p.Kind != kind {
			return kind, false
		}
		kind = p.Kind
	}
	return kind, len(may) > 0
}

func (w *Ways) add(c scheme.Counting, r *BoundRecord, p part, count int64) {
	at := w.judged.open[p.number]
	if at < 0 {
		kinds := mayBe(placeChance(c.Kinds, r, p.taxa[w.judged.First(p.number)]))
		switch {
		case len(kinds) > 1:
			w.open = append(w.open, openPart{at, [][]int{kinds}, count})
		case kinds[0] != scheme.None:
			w.counts[kinds[0]] += count
		}
		return
	}
	kinds := make([][]int, len(p.taxa))
	for i, id := range p.taxa {
		kinds[i] = mayBe(placeChance(c.Kinds, r, id))
	}
	w.open = append(w.open, openPart{at, kinds, count})
}

// apart is one way in how many in which the animals of a record, held to be alike,
// are not.
const apart = 8

// Counts gives the animals by kind in one of the ways; the slice must hold one count
// for each kind of the scheme.
func (w *Ways) Counts(way int, out []int64) {
	copy(out, w.counts)
	for i, p := range w.open {
		count := p.count
		if count > 1 && (way+i)%apart == 0 {
			if other := w.kind(i, (way+w.Number/2)%w.Number); other != scheme.None {
				out[other] += count / 2
			}
			count -= count / 2
		}
		if k := w.kind(i, way); k != scheme.None {
			out[k] += count
		}
	}
}

// kind is that of an open part in one of the ways. One that is named too broadly for the
// scheme is of each kind that the name leaves open in as many ways, as [Account.Outcomes]
// has it.
func (w *Ways) kind(i, way int) int {
	p, place := &w.open[i], 0
	if p.place >= 0 {
		place = w.judged.Drawn(way, p.place)
	}
	kinds := p.kinds[place]
	if len(kinds) == 1 {
		return kinds[0]
	}
	return kinds[scattered(way, i)%uint64(len(kinds))]
}

// scattered is a number that looks drawn by chance, the same for the same two, so that
// parts do not go together. Source of the mixing: SplitMix64, Steele, Lea and Flood 2014
// (memory).
func scattered(way, i int) uint64 {
	z := (uint64(way)<<32 + uint64(i) + 1) * 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

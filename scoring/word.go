package scoring

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/taxa/wording"
)

// leastShare is the chance below which the word of a value is not said: it would
// more likely be another.
const leastShare = 0.5

// seldom is the chance below which a rating is not spoken of where a value may
// have several.
const seldom = 0.05

// word is what may be said of a value: its rating, or why none.
type word struct {
	band        scheme.Band
	provisional bool
	animals     int64    // that it rests on, as they were counted
	ratings     []string // the worst and the best rating that it may have, where none is likely enough
	reason      string   // why it is withheld; empty where it is said
	foreign     bool     // because of names that the index or the catalog does not know
	split       bool     // the ratings of the value by itself would contradict what is said
}

// worded tells that ratings may be spoken of: there is a word, or there are some
// between which it lies.
func (w word) worded() bool {
	return w.band.Rating != "" && (w.reason == "" || len(w.ratings) > 0 && !w.split)
}

// valued is the value of an index with all that its word depends on.
type valued struct {
	sum
	names     chance.Distribution // because of doubtful names
	samples   chance.Distribution // because of which samples were taken
	deviation float64             // of that, as the bootstrap has it, in steps
	resampled bool                // whether there were samples enough for that
}

func (s grader) valued(how scheme.Combine, from evidence, all sorted, m *chance.Simulation) (v valued) {
	v.sum = s.combined(how, from, all)
	v.names = s.nameChances(how, from, m)
	if drawn, ok := s.resampled(how, from, m.Seed); ok && v.value.Defined() {
		v.resampled = true
		v.samples, v.deviation = s.otherSamples(how, drawn, len(from.samples), v.value)
	}
	return v
}

// spreads are the two spreads of a value, which are never merged.
func (v valued) spreads(s grader) (names, samples *Spread) {
	names = s.spread(v.names)
	if !v.resampled {
		return names, nil
	}
	samples = s.spread(v.samples)
	samples.Method = "bootstrap"
	return names, samples
}

// word decides whether the rating of a value may be said. It goes by the animals as
// they were counted: what was multiplied up from a part is no animal seen.
func (r *Rules) word(s grader, how scheme.Combine, of *account.Account, v valued) word {
	w := word{band: s.Band(v.value.Steps())}
	if len(s.Bands) == 0 {
		return w
	}
	seen := s.seen(of, v.sum)
	names, samples := v.spreads(s)
	w.reason = r.foreign(s, r.strangers(s, s.sort(s.recorded(of))), of.Visit.Header.Region)
	w.foreign = w.reason != ""
	w.reason = cmp.Or(w.reason, s.Floor.Lack(seen.animals(), len(seen.found)))
	if w.reason == "" {
		w.ratings, w.reason = s.inPart(of, w.band, names)
		w.split = w.reason != ""
	}
	if w.reason == "" {
		w.ratings, w.reason = unsettled(s, w.band, names, samples)
	}
	if w.reason == "" {
		w.ratings, w.reason = r.readWith(s, how, of, w.band)
		w.split = w.reason != ""
	}
	w.animals = seen.animals()
	w.provisional = w.reason == "" && w.animals < int64(s.Floor.Provisional)
	return w
}

// seen is what a value rests on, as it was counted.
func (s grader) seen(of *account.Account, v sum) sorted {
	rows := s.recorded(of)
	if v.sample != "" {
		rows = account.FromSample(rows, v.sample)
	}
	return s.sort(rows)
}

// animals is the number of animals that are counted.
func (o sorted) animals() (n int64) {
	for _, f := range o.found {
		n += f.Count
	}
	return n
}

// unsettled tells between which ratings a value lies, worst first, where its own
// is unlikely.
func unsettled(s grader, own scheme.Band, names, samples *Spread) (between []string, reason string) {
	least, why := names.probabilities()[own.Rating], wording.Text("some names are doubtful")
	may := append([]string{own.Rating}, names.mayBe()...)
	if samples != nil {
		may = append(may, samples.mayBe()...)
		if p := samples.probabilities()[own.Rating]; p < least {
			least, why = p, wording.Text("other samples might have held other animals")
		}
	}
	if least < leastShare {
		return s.ends(may), wording.Sprintf("no word is likely enough: %s would hold in %s of 100 cases, since %s", own.Rating,
			smallChance(least), why)
	}
	return nil, ""
}

// smallChance is a chance under [leastShare] in cases of a hundred, which agrees with the per cent
// that are told beside it.
func smallChance(p float64) string {
	n := math.Round(100 * p)
	switch {
	case n >= 100*leastShare:
		return wording.Sprintf("just under %.0f", n)
	case p > 0 && n == 0:
		return wording.Text("under 1")
	}
	return strconv.Itoa(int(n))
}

// mayBe are the ratings that are not seldom.
func (s *Spread) mayBe() (ratings []string) {
	for _, c := range s.Ratings {
		if c.Chance >= seldom {
			ratings = append(ratings, c.Rating)
		}
	}
	return ratings
}

// readWith tells between which ratings a value lies where the scheme that it must be
// read with says another.
func (r *Rules) readWith(s grader, how scheme.Combine, of *account.Account, own scheme.Band) (between []string, reason string) {
	if other := r.grader(s.ReadWith); other.Scheme != nil {
		if said := bandOf(other, how, of).Rating; said != own.Rating {
			return s.ends([]string{own.Rating, said}),
				wording.Sprintf("the words used are for the %s and the %s together, and by the latter it would be %s",
					s.Title, other.Title, said)
		}
	}
	return nil, ""
}

// inPart tells between which ratings the value lies where kinds in what was not
// sorted are missing: they can only make it better, whatever the names are. How samples
// differ says nothing here, since one sorted in part differs by that.
func (s grader) inPart(of *account.Account, own scheme.Band, names *Spread) (between []string, reason string) {
	if top := s.Bands[len(s.Bands)-1]; s.LosesKinds() && !s.LowIsClean() && inPart(looked(of.Tally.Samples)) && own.Rating != top.Rating {
		return s.ends(append(names.mayBe(), own.Rating, top.Rating)),
			wording.Text("only a part of some samples was sorted, and kinds in the rest, which this index counts, can only make it better")
	}
	return nil, ""
}

// bandOf is the rating of a visit by a scheme, whether it may be said or not.
func bandOf(s grader, how scheme.Combine, of *account.Account) scheme.Band {
	from := s.evidence(of)
	v := s.combined(how, from, s.sort(from.rows)).value
	if !v.Defined() {
		return scheme.Band{Rating: scheme.Unrated}
	}
	return s.Band(v.Steps())
}

// ends are the worst and the best of some ratings.
func (s grader) ends(ratings []string) []string {
	var in []string
	for _, b := range s.Bands {
		if slices.Contains(ratings, b.Rating) {
			in = append(in, b.Rating)
		}
	}
	if s.LowIsClean() {
		slices.Reverse(in)
	}
	if len(in) == 1 {
		return nil // all others are seldom, and it may have no value at all
	}
	return []string{in[0], in[len(in)-1]}
}

// say enters the word, or why there is none, into the one index of a grade that
// has a word. Chances of ratings are no words by another door: where the visit
// cannot bear a word they go too.
func (i *Index) say(s grader, w word) {
	i.Rating, i.RatingSource, i.RatingStatus = w.band.Rating, s.BandSource, w.band.Status
	if w.reason == "" {
		if i.RatingProvisional = w.provisional; w.provisional {
			i.Remarks = append(i.Remarks,
				wording.Sprintf("The word is provisional: it rests on %d animals, and a firm one takes %d (%s).", w.animals,
					s.Floor.Provisional, s.Floor.Source))
		}
		return
	}
	i.Withheld, i.Reason, i.RatingRange = true, w.reason, w.ratings
	i.Rating, i.RatingStatus = "", ""
	if len(w.ratings) == 0 {
		i.RatingSource = ""
	}
	if !w.worded() {
		i.wordless()
	}
}

// besideReference withholds a word where the group compares with a site and no visit there goes
// with this one: no word stands against a fixed scale alone.
func (w word) besideReference(r *Reference) word {
	if r == nil || r.Words != "" || w.band.Rating == "" {
		return w
	}
	w.ratings = nil
	why := alone()
	if r.unsought {
		why = wording.Text("the group compares with a reference site, and a word stands beside a visit there alone; " +
			"grading this visit by itself looks for one")
	}
	w.reason = cmp.Or(w.reason, why)
	return w
}

// alone is why a word is withheld that would stand against a fixed scale alone.
func alone() string {
	return wording.Text("the group compares with a reference site, and no visit there goes with this one: that takes the same protocol, " +
		"as many samples, and a day within the same fortnight")
}

// reading says how to read a value without a word.
func (s grader) reading() string {
	switch {
	case len(s.Bands) == 0:
		return wording.Text("A number beside the grade; no words are published for it.")
	case s.LowIsClean():
		return wording.Text("A number beside the grade, without a word of its own; the lower it is, the cleaner.")
	}
	return wording.Text("A number beside the grade, without a word of its own; the higher it is, the cleaner.")
}

// wordless takes the ratings out of the spreads.
func (i *Index) wordless() {
	for _, x := range []*Spread{i.Identification, i.Sampling} {
		if x != nil {
			x.Ratings = []RatingChance{}
		}
	}
	i.Probabilities = nil
}

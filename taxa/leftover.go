package taxa

import (
	"slices"
	"strings"
)

// What somebody said and nobody here understands is told, however short it is and
// whatever else was understood beside it: else they take it for noted.

// everyday are the stems of words that tell nothing of what an animal looks like.
var everyday = lazyStems(`i'm i've i'd i'll you your we're he she his her him us our me myself itself themselves who whose what where when
while why how because though although however if else unless until since before after again already always never
sometimes often usually mostly maybe perhaps possibly probably presumably apparently definitely certainly sure
unsure actually basically honestly simply surely even either neither nor both each every other another others same
such more less than still least few several lot lots bunch loads much enough whole own rest part little big tiny small or as
up down out off over under through across away here now today yesterday there's that's what's isn't wasn't you've
they're let's ok okay yes yeah well um er hmm oh hi hello please thanks sorry pretty super totally completely
entirely fairly somewhat slightly roughly nearly almost about around hardly barely quite anyway anything something
nothing everything someone everything's somewhere anywhere everywhere nowhere near next beside between among
against within inside outside think thought guess suppose reckon believe wonder imagine know knew tell told say
said saw seen sees see count counted find found finds notice noticed feel feels felt touch touched touching poke
poked pick picked put puts take took taken come comes came go goes went going make makes made keep keeps kept hold
held give gives gave get gets getting use uses used using want wants try tries tried start starts look looks looked
call called mean means must might may shall should would could ought need needs let lets live lives lived sit sits
sat show shows shown stay stays seem seems appear appears resemble remind reminds describe exactly total overall
quick quickly note notes hurry hurried rush honest ugly weird funny cute scary gross cool miss mum dad teacher
plus minus hour hours minute minutes second seconds tray trays net netted netting bucket pot tub jar dish sample samples
stream river brook creek pond water lake bank bottom riffle pool sort kind type way bit bits piece thing things
thingy thingies stuff place time times day ruler mm cm inch inches long length size sized first last next new old only
just once twice right left good nice lovely clear clearly obvious obviously visible visibly easily specimen larvae
nymphs animals creatures insects bugs beasts critters fellow guy one ones baby adult young child kid hung hang
soon caught catch check checked lens loupe magnifier each apiece believe swear sister brother friend dad mom grandpa grandma photo
lunch rain item tops month february march april june july september october november december notebook
hangs hanging bout kinda sorta gonna wanna ain't cos coz cause til till per via etc`)

// fillers are the stems of words that tell nothing at all, also where they stand alone: "12 mm, perhaps".
var fillers = lazyStems(`perhaps maybe possibly probably presumably roughly exactly definitely certainly surely sure honestly each apiece
sorry thanks thank please ok okay yes yeah well um er hmm oh hi hello call think guess suppose reckon believe fairly rather
say said about around or so less more now then here today yesterday anyway actually basically`)

// leftOver is what in a part is not understood, beside what was found there: clauses in
// which nothing was, with what is nearest, and words that are not known at all.
func (v *Vocabulary) leftOver(part string, words []token, all takings, doubts doubts) (out []Unclear) {
	taken := make([]bool, len(words))
	for _, f := range all.found {
		for i := f.start; i < f.first; i++ {
			taken[i] = true
		}
		for _, i := range f.tokens {
			taken[i] = true
		}
		for i := range f.elsewise(words, v.known()) {
			taken[i] = true
		}
	}
	known := v.knownWords()
	strange := func(t token) bool { return !known[t.stem] && !number(t.stem) }
	for from := 0; from < len(words); {
		to := from + 1
		for to < len(words) && !words[to-1].turn {
			to++
		}
		clause := words[from:to]
		tells := func(t token) bool { return !everyday()[t.stem] && !strange(t) && t.stem != deny }
		switch {
		case slices.Contains(taken[from:to], true), !slices.ContainsFunc(clause, tells):
			out = append(out, v.strangeWords(part, words, taken, from, to, strange)...)
		case slices.ContainsFunc(clause, strange) || !doubts.offTopic(clause[0].start):
			said := original(part, words, from, to)
			out = append(out, Unclear{said, v.offers(said, clause), false})
		}
		from = to
	}
	return out
}

// elsewise are the words that say what was found once more: with its own they are all of
// another phrase of the same state, in whatever order, as "flat three cornered feelers" is
// said in "feelers flat and three-cornered".
func (f finding) elsewise(words []token, phrases []phrase) map[int]bool {
	at := map[string]int{}
	for i, w := range words {
		at[w.stem] = i
	}
	all := map[int]bool{}
	for i := range phrases {
		p := &phrases[i]
		said := func(stem string) bool { _, ok := at[stem]; return ok }
		own := func(i int) bool { return slices.Contains(p.tokens, words[i].stem) }
		if p.trait != f.phrase.trait || p.state != f.phrase.state || p.label || len(p.tokens) <= len(f.tokens) ||
			slices.ContainsFunc(p.tokens, func(s string) bool { return !said(s) }) ||
			slices.ContainsFunc(f.tokens, func(i int) bool { return !own(i) }) {
			continue
		}
		for _, s := range p.tokens {
			all[at[s]] = true
		}
	}
	return all
}

// strangeWords are the stretches of words from one place to another that are not known,
// and words that hyphens join of which nothing was understood.
func (v *Vocabulary) strangeWords(part string, words []token, taken []bool, from, to int, strange func(token) bool) (out []Unclear) {
	joined := func(i int) bool { return i+1 < to && !taken[i+1] && part[words[i].end:words[i+1].start] == "-" }
	for i := from; i < to; i++ {
		if taken[i] || !strange(words[i]) && !joined(i) {
			continue
		}
		first := i
		if joined(i) {
			for joined(i) {
				i++
			}
			out = append(out, Unclear{original(part, words, first, i+1), v.nearest(words[first : i+1]), false})
			continue
		}
		for i+1 < to && !taken[i+1] && strange(words[i+1]) && strings.TrimSpace(part[words[i].end:words[i+1].start]) == "" {
			i++
		}
		out = append(out, Unclear{Words: original(part, words, first, i+1)})
	}
	return out
}

// offTopic reports whether a place lies behind words that speak of something else, such
// as where the animal was.
func (d *doubts) offTopic(at int) bool {
	return slices.ContainsFunc(d.tails, func(r [2]int) bool { return r[0] <= at && at < r[1] })
}

// knownWords are the stems of all words that mean something here, or tell nothing of
// an animal.
func (v *Vocabulary) knownWords() map[string]bool {
	v.known()
	b := &v.called
	b.lock.Lock()
	defer b.lock.Unlock()
	if b.words != nil {
		return b.words
	}
	b.words = map[string]bool{deny: true, hardly: true, pair: true}
	for i := range b.all {
		for _, s := range b.all[i].tokens {
			b.words[s] = true
		}
	}
	for _, list := range []func() map[string]bool{everyday, places, anywhere, bodyParts, lost, manners} {
		for s := range list() {
			b.words[s] = true
		}
	}
	return b.words
}

// compound widens a stretch of a text to the whole of words that hyphens join.
func compound(text string, from, to int) (int, int) {
	for strings.HasSuffix(text[:from], "-") {
		word := text[:from-1]
		before := len(strings.TrimRightFunc(word, wordRune))
		if before == len(word) {
			break
		}
		from = before
	}
	for strings.HasPrefix(text[to:], "-") {
		rest := text[to+1:]
		behind := len(rest) - len(strings.TrimLeftFunc(rest, wordRune))
		if behind == 0 {
			break
		}
		to += 1 + behind
	}
	return from, to
}

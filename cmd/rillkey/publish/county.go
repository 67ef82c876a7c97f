package publish

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"
	"strings"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// county is all that is shown: sites, the streams they lie on, and years.
type county struct {
	Options
	given    *givenVisits
	sites    []*site // by name
	streams  []*stream
	years    []*year // the newest first
	newest   []*shown
	obscured map[string]bool // names of sites, folded as [plain.Fold] does
	grid     sheets
}

// shown is a visit that the public sees.
type shown struct {
	*known
	*series.Row
	site       *site
	comparison *scoring.Reference // how it stands beside the site that it names; nil where it names none
}

// site is a place that was visited, by one or more schemes.
type site struct {
	name     string // for the public
	slug     string
	stream   *stream // nil for an obscured one
	obscured bool
	spot     *visit.Spot // for the public; nil where nobody noted it
	visits   []*shown    // by date
	judged   []series.Site
}

// newest is the last visit.
func (s *site) newest() *shown { return s.visits[len(s.visits)-1] }

// place is what the visits of the scheme of one of them say together.
func (s *site) place(of *shown) *series.Site {
	for i := range s.judged {
		if s.judged[i].Scheme == of.Scheme {
			return &s.judged[i]
		}
	}
	return nil
}

type stream struct {
	name, slug string
	sites      []*site
}

type year struct {
	name   string
	visits []*shown // by date
}

// newCounty sorts what is known. Visits that are not finished, have no day yet, or are
// copies of others stay out.
func newCounty(o Options, given *givenVisits, all []*known, done *SiteSummary) *county {
	c := &county{Options: o, given: given, obscured: map[string]bool{}}
	today := o.Today.Format(time.DateOnly)
	seen := map[string]string{} // the file of a visit's id
	var rows []series.Row
	byName := map[string]*known{}
	for _, k := range all {
		if k.Obscured {
			for _, name := range k.Sites {
				c.obscured[plain.Fold(name)] = true
			}
		}
		of := ""
		for _, id := range k.IDs {
			of = cmp.Or(of, seen[id])
		}
		switch {
		case of != "":
			done.Problems = append(done.Problems,
				wording.Sprintf("%s: another file, %s, holds this visit, and is shown; unite them: %s", plain.Printable(k.Name),
					plain.Printable(of), visit.HowToMerge(of, k.Name)))
			continue
		case k.Problem != "":
			continue
		case !k.Finished:
			done.Open = append(done.Open, k.Name)
			continue
		case k.date() > today:
			done.Future++
			continue
		}
		for _, id := range k.IDs {
			seen[id] = k.Name
		}
		if k.Naming {
			done.Naming[k.Summary.Visit.Site] = k.Name
		}
		byName[k.Name] = k
		rows = append(rows, k.row())
	}
	c.arrange(series.GradeRows(o.Rules, rows, nil, series.Options{Today: o.Today, Seed: o.Seed, Workers: workers()}), byName)
	c.name()
	c.obscureCompared()
	c.alongStreams()
	c.byYear()
	c.grid = c.newSheets()
	done.Visits, done.Sites, done.Streams, done.Years = len(rows), len(c.sites), len(c.streams), len(c.years)
	return c
}

// arrange puts the rows of a table, which are in the order of their places, to sites.
func (c *county) arrange(t *series.VisitTable, byName map[string]*known) {
	at := map[string]*site{}
	for i := range t.Rows {
		r := &t.Rows[i]
		k := byName[r.File]
		key := folded(r.Visit.Site)
		s := at[key]
		if s == nil {
			s = &site{name: r.Visit.Site}
			at[key] = s
			c.sites = append(c.sites, s)
		}
		s.visits = append(s.visits, &shown{known: k, Row: r, site: s})
		s.obscured = s.obscured || slices.ContainsFunc(k.Sites, func(name string) bool { return c.obscured[plain.Fold(name)] })
	}
	for _, p := range t.Places {
		s := at[folded(p.Site)]
		s.judged = append(s.judged, p)
	}
	for _, s := range c.sites {
		slices.SortFunc(s.visits, func(a, b *shown) int {
			return cmp.Or(strings.Compare(a.date(), b.date()), strings.Compare(a.IDs[0], b.IDs[0]))
		})
	}
}

// name gives every site its public name, place and address. That of an obscured one is
// made from the id of its first visit, which chance drew.
func (c *county) name() {
	for _, s := range c.sites {
		for _, v := range s.visits {
			s.spot = cmp.Or(v.Spot, s.spot) // the newest that somebody noted
		}
		if !s.obscured {
			s.name = plain.OneLine(s.newest().Visit.Site)
			continue
		}
		first := slices.MinFunc(s.visits, func(a, b *shown) int { return strings.Compare(a.IDs[0], b.IDs[0]) })
		s.name = wording.Sprintf("Site withheld %s", short("site", first.IDs[0]))
		s.spot = nil
		for _, v := range s.visits {
			if v.Spot != nil && s.spot == nil {
				rough := v.Spot.Blurred()
				s.spot = &rough // of one visit alone: several would tell more
			}
		}
	}
	slices.SortFunc(c.sites, func(a, b *site) int {
		return cmp.Or(strings.Compare(plain.Fold(a.name), plain.Fold(b.name)), strings.Compare(a.name, b.name))
	})
	for i, slug := range slugs(c.sites, func(s *site) string { return s.name }) {
		c.sites[i].slug = slug
	}
}

func (c *county) alongStreams() {
	at := map[string]*stream{}
	for _, s := range c.sites {
		if s.obscured {
			continue
		}
		name := c.Streams.named(s.name)
		st := at[plain.Fold(name)]
		if st == nil {
			st = &stream{name: name}
			at[plain.Fold(name)] = st
			c.streams = append(c.streams, st)
		}
		s.stream = st
		st.sites = append(st.sites, s)
	}
	slices.SortFunc(c.streams, func(a, b *stream) int {
		return cmp.Or(strings.Compare(plain.Fold(a.name), plain.Fold(b.name)), strings.Compare(a.name, b.name))
	})
	for i, slug := range slugs(c.streams, func(s *stream) string { return s.name }) {
		c.streams[i].slug = slug
	}
}

// mostNew is how many visits the feed holds, and the first page names.
const mostNew = 30

func (c *county) byYear() {
	at := map[string]*year{}
	var all []*shown
	for _, s := range c.sites {
		all = append(all, s.visits...)
	}
	slices.SortFunc(all, func(a, b *shown) int {
		return cmp.Or(strings.Compare(a.date(), b.date()), strings.Compare(a.site.slug, b.site.slug), strings.Compare(a.IDs[0], b.IDs[0]))
	})
	for _, v := range all {
		name := v.date()[:4]
		y := at[name]
		if y == nil {
			y = &year{name: name}
			at[name] = y
			c.years = append([]*year{y}, c.years...)
		}
		y.visits = append(y.visits, v)
	}
	c.newest = slices.Clone(all[max(0, len(all)-mostNew):])
	slices.Reverse(c.newest)
}

// rests is the fingerprint of what a file rests on, beside the program and what the
// whole site is called.
func (c *county) rests(on ...any) string {
	data, err := json.Marshal([]any{c.Maker, c.Title, c.Group, c.Terms, c.Address, on})
	if err != nil { // texts and finite numbers are marshalled; what cannot be is made anew each time
		return ""
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// short is a short fingerprint that tells nothing of what it was made from.
func short(of ...string) string {
	sum := sha256.Sum256([]byte(strings.Join(of, "\x00")))
	return hex.EncodeToString(sum[:3])
}

package practice

import (
	"embed"
	"io/fs"
	"sync"

	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// Ready says what somebody is ready for.
type Ready string

// What people are ready for.
const (
	ReadyAlone  Ready = "alone"   // names animals alone
	ReadyByTwos Ready = "by twos" // names them while somebody names them too, apart
	ReadyNotYet Ready = "not yet" // practises on
	ReadyTooFew Ready = "too few" // has met too few animals for anything to be said
)

// Readiness are the lines that are drawn between what people are ready for.
type Readiness struct {
	// Sittings is how many animals must be met in sittings before anything is said;
	// who met fewer must have met as many as Tests in tests. A test alone tells little:
	// it holds each kind once or twice and teaches none.
	Sittings int `json:"animals_in_sittings"`
	Tests    int `json:"animals_in_tests"`
	// Alone and ByTwos are the shares of wrong names in a tally, 0 to 1, up to which
	// somebody is ready for that.
	Alone  float64 `json:"alone"`
	ByTwos float64 `json:"by_twos"`
	// DaysByTwos is on how many days somebody must have practised to name by twos, 1 or
	// more.
	DaysByTwos int `json:"by_twos_days"`
	// What somebody must have done besides to name alone: Days of practice, Kept of a
	// tally's animals as in [Progress], and Real animals, of the last of which no larger
	// share than Alone is wrongly named; 0 asks for none.
	Days   int     `json:"days"`
	Kept   float64 `json:"kept"`
	Real   int     `json:"real_animals"`
	Source string  `json:"source"` // of these figures
}

//go:embed readiness.toml
var embedded embed.FS

// usualReadiness are the lines drawn where nobody draws others.
var usualReadiness = sync.OnceValue(func() Readiness {
	r, err := ReadReadiness(embedded, "readiness.toml", "readiness.toml")
	if err != nil {
		panic(err) // the file is part of the program, and a test reads it
	}
	return r
})

// ReadReadiness reads a file of lines, whose messages call it shown. The error is of type
// [authored.Findings] where the file could be read at all.
func ReadReadiness(fsys fs.FS, name, shown string) (Readiness, error) {
	var report authored.Report
	var r Readiness
	top, err := authored.ReadTable(fsys, name, shown, &report)
	if err != nil {
		return r, err
	}
	if top != nil {
		top.Need("readiness")
		if t := top.Sub("readiness"); t != nil {
			r = Readiness{Sittings: count(t, "sittings", 1), Tests: count(t, "tests", 1), Alone: share(t, "alone"),
				ByTwos: share(t, "by_twos"), Days: count(t, "days", 1), Kept: share(t, "kept"), Real: count(t, "real", 0),
				DaysByTwos: 1, Source: t.NeedStr("source")}
			if t.Has("by_twos_days") { // a file of before has no line for it
				r.DaysByTwos = count(t, "by_twos_days", 1)
			}
			if r.Alone > r.ByTwos {
				t.Fail("by_twos", "ready-lines", wording.Text("who names alone would not be ready by twos"),
					wording.Text("write a share that is not below that of alone"))
			}
			t.Done()
		}
		top.Done()
	}
	return r, report.Findings().Err()
}

// count is a number of animals or days that must be there.
func count(t *authored.Table, key string, least int) int {
	t.Need(key)
	n, ok := t.Int(key)
	if ok && (n < int64(least) || n > MostMeetings) {
		t.Fail(key, "ready-lines", wording.Sprintf("this number is from %d to %d", least, MostMeetings), wording.Text("correct the number"))
	}
	return int(n)
}

// share is a share that must be there.
func share(t *authored.Table, key string) float64 {
	t.Need(key)
	f, ok := t.Num(key)
	if ok && !(f >= 0 && f <= 1) {
		t.Fail(key, "ready-lines", wording.Text("a share is from 0 to 1"), wording.Text("write 0.1 for one in ten"))
	}
	return f
}

// Enough reports whether anything can be said of somebody who met so many animals in
// sittings and in tests.
func (r Readiness) Enough(practised, tested int) bool {
	return practised >= r.Sittings || tested >= r.Tests
}

// ready is what somebody is ready for who stands so.
func (r Readiness) ready(s *Progress) Ready {
	switch {
	case !r.Enough(s.Animals, s.Tested):
		return ReadyTooFew
	case s.Error > r.ByTwos, s.Days < r.DaysByTwos:
		return ReadyNotYet
	case s.Error > r.Alone, s.Days < r.Days, s.Kept < r.Kept, s.Real < r.Real, s.RealWrong > r.MostRealWrong():
		return ReadyByTwos
	}
	return ReadyAlone
}

// MostRealWrong is how many of the last Real animals may be wrongly named by who names
// alone.
func (r Readiness) MostRealWrong() int { return int(r.Alone*float64(r.Real) + 1e-9) }

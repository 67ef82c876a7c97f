package practice

import (
	"math"
	"time"
)

// sight is what is known of how a person names one kind on sight.
type sight struct {
	right, wrong, silent float64 // times it was named rightly, wrongly, not at all; the older the less
	taken                []float64
	last                 time.Time
	strength             float64 // days after which a good part is forgotten
	met                  int
	told                 bool // what it was, when it was met last
}

// Priors of a kind that was not met: in meetings, what people do with a kind that
// nobody has shown them (memory), and how fast older meetings fade.
const (
	priorRight  = 0.05
	priorWrong  = 0.1
	priorSilent = 0.6
	fadeSight   = 0.7
	// slowWorth is how much a name on sight counts that took much longer than usual.
	slowWorth, slowTimes = 0.6, 2.0
	// promptedWorth is how much one counts that was chosen among kinds that were listed.
	promptedWorth = 0.5
)

// The forgetting curve: after d days a share (1 + d/strength)^-1/2 is left, a power
// of time (Wickelgren 1974, from memory). The first night leaves about 0.7; a kind
// remembered after a time lasts longer, the more so the more of it was at risk.
const (
	firstStrength = 1.0
	growth        = 2.5
	shrink        = 0.6
)

func newSight(kinds int) sight {
	return sight{strength: firstStrength, taken: make([]float64, kinds)}
}

// kept is the share that is still known at a moment.
func (s *sight) kept(at time.Time) float64 {
	if s.met == 0 {
		return 1
	}
	return math.Pow(1+days(s.last, at)/s.strength, -0.5)
}

// firsts is how a person named kinds that they had not met here before: what they know
// from elsewhere, and how readily they guess.
type firsts struct{ right, wrong, silent float64 }

// firstStrong is how many first meetings the prior weighs as much as (memory).
const firstStrong = 8.0

// prior is what is believed of a kind before it is met, in meetings.
func (f firsts) prior() firsts {
	const all = priorRight + priorWrong + priorSilent
	part := all / (firstStrong + f.right + f.wrong + f.silent)
	share := func(prior, seen float64) float64 { return part * (firstStrong*prior/all + seen) }
	return firsts{share(priorRight, f.right), share(priorWrong, f.wrong), share(priorSilent, f.silent)}
}

// take takes in how a kind was named that was met for the first time.
func (f *firsts) take(m *Meeting) {
	switch m.knownAs() {
	case "":
		f.silent++
	case m.Kind:
		f.right++
	default:
		f.wrong++
	}
}

// now are the chances that the kind is named on sight rightly and wrongly, where own is
// what is believed before it is met.
func (s *sight) now(at time.Time, own firsts) (right, wrong float64) {
	total := own.right + own.wrong + own.silent + s.right + s.wrong + s.silent
	right, wrong = (own.right+s.right)/total, (own.wrong+s.wrong)/total
	if s.told {
		right, wrong = right+sightGain*(1-right), wrong*(1-sightGain)
	}
	lost := right * (1 - s.kept(at))
	return right - lost, wrong + lost*0.25
}

// see takes in how a kind was named on sight. After it everybody is told what it was,
// but for a test.
func (l *Learner) see(kind int, m *Meeting) {
	if m.Test == WithKey {
		return // nobody was asked
	}
	s := &l.sights[kind]
	if m.Alike { // its drawing says nothing of whether the kind is known
		s.hear(m)
		return
	}
	if s.right+s.wrong+s.silent == 0 {
		l.firsts.take(m)
	}
	kept := s.kept(m.Time)
	worth := 1.0
	if m.knownAs() != "" {
		worth = l.paced(m.Seconds)
	}
	if m.Prompted {
		worth = min(worth, promptedWorth)
	}
	s.right, s.wrong, s.silent = s.right*fadeSight, s.wrong*fadeSight, s.silent*fadeSight
	switch {
	case m.knownAs() == "":
		s.silent++
	case m.Sight == m.Kind:
		s.right += worth
		s.silent += 1 - worth
		s.strength *= 1 + growth*(1-kept)
	default:
		s.wrong++
		s.strength = max(firstStrength, s.strength*shrink)
	}
	s.hear(m)
	if m.Test != "" {
		return
	}
	for j := range s.taken {
		s.taken[j] *= fadeSight
	}
	if j, ok := l.course.kindPlace[m.Sight]; ok && j != kind {
		s.taken[j]++
	}
}

// hear takes in that the person was told what it was, but for a test.
func (s *sight) hear(m *Meeting) {
	if m.Test == "" {
		s.told, s.last = true, m.Time
		s.met++
	}
}

// paced is what a name on sight is worth by the time it took.
func (l *Learner) paced(seconds float64) float64 {
	if seconds <= 0 {
		return 1
	}
	usual := l.pace
	if l.pace == 0 {
		usual, l.pace = seconds, seconds
	}
	l.pace = math.Exp(0.9*math.Log(l.pace) + 0.1*math.Log(seconds))
	if seconds > slowTimes*usual {
		return slowWorth
	}
	return 1
}

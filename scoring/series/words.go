package series

import (
	"math"
	"strings"

	"rillkey/scoring/chance"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// say puts what was found into sentences, for one of so many places that were
// judged.
func (p *Site) say(places int) {
	var words []string
	told := false
	for _, asked := range []HypothesisKind{StepChange, Rise} {
		if t := p.clearest(asked); t != nil {
			told, words = true, append(words, t.words())
		}
	}
	switch {
	case told:
	case len(p.Tests) == 0:
		words = append(words, wording.Sprintf(
			"Whether anything changed cannot be said yet: that takes %d visits at one time of year with the same effort.", fewestBefore+1))
	default:
		words = append(words, wording.Text("Nothing stands out from how this site varies between visits."))
	}
	if p.drifts {
		words = append(words, wording.Text(
			"No trend can be told: the day of the visit moves through the year, and the animals with it. Come at the same time each year."))
	} else if t := p.Trend; t != nil && p.clearest(Rise) == nil {
		words = append(words, wording.Sprintf(
			"No trend to be shown over %s (%s: Mann-Kendall S = %d, corrected p = %.3f; Sen's slope %+.2f a year).",
			plain.Count(t.Points, "visit"), p.Title, t.S, t.PCorrected, t.Sen))
	}
	if !told {
		words = append(words, p.power(places)...)
	}
	if p.Usual != nil {
		words = append(words, p.Usual.words())
		if said := otherWater(p.Usual.OtherConditions); said != "" && !told {
			words = append(words, said)
		}
	}
	p.Words = strings.Join(words, " ")
}

// clearest is the shown answer with the least chance, nil for none.
func (p *Site) clearest(asked HypothesisKind) (found *Hypothesis) {
	for i := range p.Tests {
		if t := &p.Tests[i]; t.Shown && t.Asked == asked && (found == nil || t.P < found.P) {
			found = t
		}
	}
	return found
}

// ChangedBy is the sentence of the clearest step that is shown and lies before a
// visit of the day, or of an earlier one; empty for none.
func (p *Site) ChangedBy(day string) string {
	if t := p.clearest(StepChange); t != nil && t.FirstDay <= day {
		return t.words()
	}
	return ""
}

// words is the sentence of a change that is shown.
func (t *Hypothesis) words() string {
	byChance := wording.Sprintf("Where nothing changed, chance alone does that %s.", often(t.P))
	switch {
	case t.Asked == Rise && t.After < 0:
		return wording.Sprintf("%s: falling over %s. %s", t.Figure, plain.Count(t.Earlier, "visit"), byChance)
	case t.Asked == Rise:
		return wording.Sprintf("%s: rising over %s. %s", t.Figure, plain.Count(t.Earlier, "visit"), byChance)
	}
	when := wording.Sprintf("on %s", t.FirstDay)
	if t.Later > 1 {
		when = wording.Sprintf("in the %d visits since %s", t.Later, t.FirstDay)
	}
	said := wording.Sprintf("%s: %.1f %s, against %.1f in the %d visits before at this time of year. %s", t.Figure, t.After,
		when, t.Before, t.Earlier, byChance)
	return strings.TrimSpace(said + " " + t.water)
}

// often is a chance as people say it, corrected for all that was asked.
func often(p float64) string {
	if p < 0.001 {
		return wording.Text("less than once in 1000 times")
	}
	return wording.Sprintf("%.0f times in 1000", math.Ceil(1000*p))
}

// power says how likely losses would have been noticed in the newest visit: that
// nothing stands out does not say that nothing was lost.
func (p *Site) power(places int) []string {
	for i := range p.Tests {
		t := &p.Tests[i]
		if t.Asked != StepChange || t.Later != 1 || t.error == 0 {
			continue
		}
		third, most := p.noticed(t, 1.0/3, places), p.noticed(t, 0.9, places)
		if !t.figure.share {
			return []string{wording.Sprintf("Had the %s been off by a third of its mean at the newest visit, that would have been "+
				"noticed in %.0f of 100 cases; by nine tenths, in %.0f.", t.Figure, 100*third, 100*most)}
		}
		return []string{wording.Sprintf(
			"Had a third of the %s been gone at the newest visit, that would have been noticed in %.0f of 100 cases; had nine "+
				"tenths, in %.0f.", strings.TrimPrefix(t.Figure, wording.Text("Per cent ")), 100*third, 100*most)}
	}
	return nil
}

// noticed is the chance that the loss of a part shows in the step before the newest
// visit, at the level that the test has if all others show nothing. A part of the
// animals meant lowers the odds of their share by as much.
func (p *Site) noticed(t *Hypothesis, lost float64, places int) float64 {
	moved := t.Before * lost
	if t.figure.share {
		moved = -math.Log(1 - lost)
	}
	weights := 0.0
	for _, other := range p.Tests {
		weights += other.weight
	}
	bound := chance.StudentBound(alarms/float64(places)*t.weight/weights, t.freedom)
	return chance.StudentPower(moved/t.error, bound, t.freedom)
}

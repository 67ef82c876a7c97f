package paper

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/chart"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// feeding is how the animals feed, and what else of the mixture others ask for: a
// chart and a sentence each.
func (w *reporting) feeding() {
	bars, ok := chart.Feeding(w.Grade)
	said := mixture(w.Grade, w.inPart())
	if !ok && len(said) == 0 {
		return
	}
	w.Section(wording.Text("How they feed, and who prevails"))
	w.Begin("div", "two")
	if ok {
		w.chart(bars, chart.PaperSize{Width: chartWidth, Height: min(bars.Height(chartWidth), highestChart)},
			w.caption(wording.Text("Animals by way of feeding"), wording.Text("what was sorted in part multiplied up")))
		said = append([]string{fed(bars, w.inPart())}, said...)
	}
	w.Begin("div", "")
	for _, s := range said {
		w.Text("", s)
	}
	w.End()
	w.End()
	w.End()
}

// caption is that of a chart, with how its animals are counted where a part of some sample
// was sorted.
func (w *reporting) caption(of, how string) string {
	if !w.inPart() {
		return of
	}
	return of + ", " + how
}

// inPart reports whether some sample was sorted in part: counts are then multiplied
// up in some indices and not in others.
func (w *reporting) inPart() bool {
	return slices.ContainsFunc(w.tally.Samples, func(s visit.Taken) bool { return s.Fraction > 0 && s.Fraction < 1 })
}

// goesWith says what a stream with many of a group often has. It is no cause.
// Common practice of the trade.
var goesWith = map[string]string{
	"shredders": wording.Mark("Many shredders go with leaves that fall in."),
	"scrapers":  wording.Mark("Many scrapers go with light, and growth on the stones."),
	"gatherers": wording.Mark("Many gatherers go with fine matter on the bed."),
	"filterers": wording.Mark("Many filterers go with fine matter that comes down with the current."),
	"predators": wording.Mark("Hunters are few nearly everywhere; many of them may mean that the small animals they eat were overlooked."),
}

// fewForShares are the animals below which a share says nothing (common practice).
const fewForShares = 30

// fed says which way of feeding prevails; inPart that the bars hold animals that nobody saw,
// by which parts were multiplied up.
func fed(b chart.Bars, inPart bool) string {
	bars := b.Groups[0].Bars
	most, all, alike := mostOf(len(bars), func(i int) (string, int64) { return bars[i].Label, bars[i].Count })
	share := plain.Percent(float64(most) / float64(all))
	switch known := plain.Count(int(all), "animal"); {
	case all < fewForShares && !inPart:
		return wording.Sprintf("The way of feeding is known of %s, too few to say which prevails.", known)
	case len(alike) > 1 && inPart:
		return wording.Sprintf("None prevails among the animals whose way of feeding is known, what was sorted in part multiplied up: %s "+
			"are equally many. Each family is placed by its main way, though many feed in more than one.", plain.And(alike))
	case len(alike) > 1:
		return wording.Sprintf("None prevails among the %s whose way of feeding is known: %s are equally many. Each family is placed by "+
			"its main way, though many feed in more than one.", known, plain.And(alike))
	case inPart:
		return wording.Sprintf("Of the animals whose way of feeding is known, what was sorted in part multiplied up, %s are the most "+
			"(%s). %s Each family is placed by its main way, though many feed in more than one.", alike[0], share,
			wording.Text(goesWith[alike[0]]))
	default:
		return wording.Sprintf("Of the %s whose way of feeding is known, %s are the most (%s). %s Each family is placed by its "+
			"main way, though many feed in more than one.", known, alike[0], share, wording.Text(goesWith[alike[0]]))
	}
}

// mostOf is the highest of n counts, their sum, and what has the highest.
func mostOf(n int, of func(i int) (string, int64)) (most, all int64, alike []string) {
	for i := range n {
		label, count := of(i)
		if all += count; count > most {
			most, alike = count, nil
		}
		if count == most && count > 0 {
			alike = append(alike, plain.Printable(label))
		}
	}
	return most, all, alike
}

// enduring are the families of mayflies and caddisflies that bear more than the
// others do. Common practice of those who judge by shares of these orders.
var enduring = []string{"baetidae", "caenidae", "hydropsychidae"}

// half is the share of one kind above which it is told as a sign (common practice).
const half = 50

// mixture are sentences on the share of mayflies, stoneflies and caddisflies, with
// and without the enduring families, and on that of the commonest kind.
func mixture(g *scoring.Grade, inPart bool) (out []string) {
	by := map[string]scoring.Index{}
	for _, i := range g.Further {
		if i.Value != nil {
			by[i.ID] = i
		}
	}
	if i, ok := by["percent-ept"]; ok && animalsOf(i) >= fewForShares {
		said := wording.Sprintf("Mayflies, stoneflies and caddisflies are %s %% of the animals that count", wording.Number(*i.Value)) +
			reach(&i)
		without := int64(0)
		for _, t := range by["ept-families"].Terms {
			if slices.Contains(enduring, t.Kind) {
				without += t.Count
			}
		}
		if without > 0 && !inPart {
			left := *i.Value - 100*float64(without)/float64(animalsOf(i))
			said += wording.Sprintf(
				"; %.1f %% without the minnow mayflies, small square-gilled mayflies and net-spinners named, which bear "+
					"more than the others", max(0, left))
		}
		out = append(out, said+".")
	}
	if i, ok := by["percent-dominant"]; ok && animalsOf(i) >= fewForShares {
		said := commonest(i)
		if *i.Value > half {
			said += wording.Text(" More than half of one kind is often a sign of stress, though a hatch, or a bed that suits it, " +
				"does the same.")
		}
		out = append(out, said)
	}
	return out
}

// commonest says which kind there are most of, or which of equally many.
func commonest(i scoring.Index) string {
	_, _, labels := mostOf(len(i.Terms), func(n int) (string, int64) { return strings.ToLower(i.Terms[n].Label), i.Terms[n].Count })
	if len(labels) > 1 {
		return wording.Sprintf("The commonest kinds, %s, make %s %% of the animals that count each%s.", plain.And(labels),
			wording.Number(*i.Value), reach(&i))
	}
	return wording.Sprintf("The commonest kind, %s, makes %s %% of the animals that count%s.", strings.Join(labels, ""),
		wording.Number(*i.Value), reach(&i))
}

func animalsOf(i scoring.Index) (n int64) {
	for _, t := range i.Terms {
		n += t.Count
	}
	return n
}

package paper

import (
	"slices"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sure says how sure the answer is: the two kinds of doubt, each by itself, and
// what more samples would find.
func (w *reporting) sure() {
	w.Section(wording.Text("How sure it is"))
	likely, graded := chart.Chances(w.main, w.scheme)
	x, err := w.Rules.Incidence(w.Account)
	curve, curved := chart.Accumulated(x, w.Grade.Effort.Required)
	curved = curved && err == nil
	if graded || curved {
		w.Begin("div", "two")
		if graded {
			w.chart(likely, chart.PaperSize{Width: chartWidth, Height: likely.Height()}, wording.Text("How likely each rating is"))
		}
		if curved {
			w.chart(curve, chart.PaperSize{Width: chartWidth, Height: 56}, curve.Title)
		}
		if graded != curved {
			w.Begin("div", "")
			w.doubts(curve, curved)
			w.End()
		}
		w.End()
	}
	if graded == curved {
		w.doubts(curve, curved)
	}
	w.End()
}

func (w *reporting) doubts(curve chart.Gathered, curved bool) {
	var points []string
	if w.main.Value != nil {
		points = append(points, show.Doubts(w.main, w.main.Identification, w.main.Sampling)...)
	}
	if curved {
		points = append(points, w.outlook(curve))
	} else {
		points = append(points, wording.Text(
			"How many kinds more samples would find cannot be told from fewer than two samples with animals in them."))
	}
	points = append(points, w.main.Remarks...)
	// The remark on variety reads as a word of praise, which a withheld grade has
	// none of; what is wrong in the file is told with the quality.
	left := []string{wording.Text(scoring.Variety)}
	for _, n := range w.tally.Notices {
		left = append(left, n.String())
	}
	for _, r := range w.Grade.Remarks {
		if !slices.Contains(left, r) {
			points = append(points, r)
		}
	}
	for i := range points {
		points[i] = plain.Printable(points[i])
	}
	w.List("", points)
}

// outlook says what the curve of kinds against samples shows.
func (w *reporting) outlook(curve chart.Gathered) string {
	further := wording.Text(" Such an estimate takes further samples to be like those taken, and is rough beyond twice as many.")
	if o := w.Grade.Effort.Forecast; o != nil {
		return wording.Sprintf("%s found in %s. With all %d about %.0f would be found (%.0f to %.0f in 95 of 100 cases), and "+
			"%.0f or more live there (%.0f to %.0f).",
			plain.Count(o.Found, "kind"), plain.Count(o.Samples, "sample"), o.Required,
			o.Expected, o.Low, o.High, o.InAll, o.InAllLow, o.InAllTop) + further
	}
	taken, ahead := curve.Taken[len(curve.Taken)-1], curve.Ahead[len(curve.Ahead)-1]
	return wording.Sprintf("%s found in %s. Had %d been taken, about %.1f would have been found (%.1f to %.1f in 95 of 100 cases).",
		plain.Count(int(taken.Kinds), "kind"), plain.Count(taken.Samples, "sample"), ahead.Samples, ahead.Kinds, ahead.Low,
		ahead.High) + further
}

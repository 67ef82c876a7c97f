package trial

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rillkey/key"
)

// BenchmarkTargets prints the table of what identification reaches, by method,
// misread rate and kind of error, and whom it confuses. With -long it draws ten
// thousand specimens a row, else four hundred.
func BenchmarkTargets(b *testing.B) {
	k := embeddedKey(b)
	for b.Loop() {
		fmt.Print("\n", table(b, k))
	}
}

type line struct {
	name          string
	people, model key.Rates
	rate          float64 // for the bound; NaN where traits differ
	flat, answers bool
}

func lines(k *key.Key) []line {
	v := k.Catalog().Vocabulary()
	var out []line
	for _, answers := range []bool{false, true} {
		for _, row := range targets {
			r := key.EvenRates(v, row.rate)
			out = append(out, line{fmt.Sprintf("%.2f, told", row.rate), r, r, row.rate, true, answers})
		}
	}
	file := key.FileRates(v)
	for _, row := range targets {
		out = append(out, line{fmt.Sprintf("%.2f, not told", row.rate), key.EvenRates(v, row.rate), file, row.rate, true, false})
	}
	for _, f := range []float64{0.5, 1, 2} {
		even := key.EvenRates(v, 0.1)
		out = append(out, line{fmt.Sprintf("0.10 x %.1f", f), even.Times(f), even, 0.1 * f, true, false})
		out = append(out, line{fmt.Sprintf("file x %.1f", f), file.Times(f), file, math.NaN(), true, false})
	}
	return append(out, line{"file, common", file, file, math.NaN(), false, false})
}

func table(t testing.TB, k *key.Key) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%d end points, %d specimens a row, log2 = %.2f\n", len(k.Ends()), few(), bound(len(k.Ends()), 0))
	fmt.Fprintf(&out, "wrong    rate           method     | family given | class  given | order  | none  | mean q  p95  x bound | calib | named first\n")
	for _, l := range lines(k) {
		for _, method := range Methods {
			r := run(t, Setup{Key: k, People: l.people, Model: l.model, Method: method, Flat: l.flat, Answers: l.answers})
			n := float64(r.Specimens)
			wrong := "readings"
			if l.answers {
				wrong = "answers"
			}
			fmt.Fprintf(&out, "%-8s %-14s %-10s | %.3f %.3f  | %.3f  %.3f | %.3f  | %.3f | %5.2f  %3d  %5.2f   | %.3f | %.3f of %d\n", wrong, l.name, method,
				r.Family.Share(), float64(r.Family.Given)/n, r.Class.Share(), float64(r.Class.Given)/n, r.Order.Share(), float64(r.Declined)/n,
				r.MeanQuestions, r.P95Questions, r.MeanQuestions/bound(len(k.Ends()), l.rate), r.ECE, r.OneHarmful.Share(), r.OneHarmful.Given)
			if l.name == "0.10, told" && !l.answers {
				fmt.Fprintf(&out, "    lost at %v\n    confused %v\n    left open %v\n", r.Losses[:min(8, len(r.Losses))], r.Confused[:min(8, len(r.Confused))], r.Unsettled[:min(16, len(r.Unsettled))])
			}
		}
	}
	return out.String()
}

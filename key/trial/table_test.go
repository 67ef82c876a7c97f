package trial

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// BenchmarkTargets prints the table of what identification reaches, by method,
// misread rate and kind of error, and whom it confuses. With -long it draws five
// thousand specimens a row, else two hundred.
func BenchmarkTargets(b *testing.B) {
	k := keytest.Key(b)
	for b.Loop() {
		fmt.Print("\n", table(b, k))
	}
}

type line struct {
	name          string
	people, model key.Rates
	flat, answers bool
	noLens        bool
	unsure        float64
}

func lines(k *key.Key) []line {
	v := k.Catalog().Vocabulary()
	var out []line
	for _, answers := range []bool{false, true} {
		for _, row := range targets {
			r := key.EvenRates(v, row.rate)
			out = append(out, line{name: fmt.Sprintf("%.2f, told", row.rate), people: r, model: r, flat: true, answers: answers})
		}
	}
	file := key.FileRates(v)
	for _, row := range targets {
		out = append(out, line{name: fmt.Sprintf("%.2f, not told", row.rate), people: key.EvenRates(v, row.rate), model: file, flat: true})
	}
	even := key.EvenRates(v, 0.1)
	for _, f := range []float64{0.5, 1, 2} {
		out = append(out,
			line{name: fmt.Sprintf("0.10 x %.1f", f), people: even.Times(f), model: even, flat: true},
			line{name: fmt.Sprintf("file x %.1f", f), people: file.Times(f), model: file, flat: true})
	}
	return append(out,
		line{name: "file, common", people: file, model: file},
		line{name: "file, no lens", people: file, model: file, flat: true, noLens: true},
		line{name: "file, unsure", people: file, model: file, flat: true, unsure: 0.2})
}

func table(t testing.TB, k *key.Key) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%d end points, %d specimens a row, %.2f bits open beforehand where all are equally common\n",
		len(k.Ends()), few(), openBits(k, true))
	fmt.Fprint(&out, "wrong    rate           method     | family given | class  given | order  | none  "+
		"| mean q  p95  at least | calib | named first\n")
	for _, l := range lines(k) {
		for _, method := range Methods {
			o := key.DefaultOptions()
			o.NoLens = l.noLens
			r := run(t, Setup{Options: o, Key: k, People: l.people, Model: l.model, Method: method,
				Flat: l.flat, Answers: l.answers, Unsure: l.unsure})
			n := float64(r.Specimens)
			wrong := "readings"
			if l.answers {
				wrong = "answers"
			}
			fmt.Fprintf(&out, "%-8s %-14s %-10s | %.3f %.3f  | %.3f  %.3f | %.3f  | %.3f | %5.2f  %3d  %5.2f   | %.3f | %.3f of %d\n",
				wrong, l.name, method,
				r.Family.Share(), float64(r.Family.Given)/n, r.Class.Share(), float64(r.Class.Given)/n, r.Order.Share(),
				float64(r.Declined)/n,
				r.MeanQuestions, r.P95Questions, LowerBound(Setup{Key: k, People: l.people, Flat: l.flat}), r.ECE,
				r.OneHarmful.Share(), r.OneHarmful.Given)
			if l.name == "0.10, told" && !l.answers {
				fmt.Fprintf(&out, "    lost at %v\n    confused %v\n    left open %v\n", r.Losses[:min(8, len(r.Losses))],
					r.Confused[:min(8, len(r.Confused))], r.Unsettled[:min(16, len(r.Unsettled))])
			}
		}
	}
	return out.String()
}

package trial

import (
	"context"
	"flag"
	"fmt"
	"math"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

var long = flag.Bool("long", false, "run the trial with many specimens")

func embeddedKey(t testing.TB) *key.Key {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	sound, err := couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, catalog)
	if err != nil {
		t.Fatal(err)
	}
	return key.Compile(sound, catalog)
}

func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

func run(t testing.TB, s Setup) *Report {
	t.Helper()
	s.Workers, s.Seed, s.Flat = 2, 1, true
	if s.Options.Required == 0 {
		s.Options = key.DefaultOptions()
	}
	r, err := Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestTable(t *testing.T) {
	k := embeddedKey(t)
	v := k.Catalog().Vocabulary()
	n := 1000
	if *long {
		n = 20000
	}
	ends := float64(len(k.Ends()))
	fmt.Printf("%d end points, %d specimens\n", len(k.Ends()), n)
	fmt.Println("rate model   method      fam.right ±     given   order  class(given right) class(all) declined  mean p95  bound ratio   ECE   blamed  n")
	for _, rate := range []float64{0, 0.05, 0.10, 0.20} {
		for _, model := range []string{"told", "file"} {
			rates := key.EvenRates(v, rate)
			if model == "file" {
				rates = key.FileRates(v)
			}
			for _, answers := range []bool{false, true} {
				for _, method := range Methods {
					if method == Plain && model == "file" {
						continue
					}
					r := run(t, Setup{Key: k, People: key.EvenRates(v, rate), Model: rates, Method: method, Specimens: n, Answers: answers})
					bound := math.Log2(ends) / (1 - entropy(rate))
					fmt.Printf("%.2f %s %-12s %.3f ±%.3f %.3f  %.3f  %.3f   %.3f  %.3f  %5.2f %3d  %5.2f %.2f  %.3f   %.3f %d\n", rate, model, method, r.Family.Share(), r.Family.Error(), float64(r.Family.Given)/float64(n),
						r.Order.Share(), r.Class.Share(), float64(r.Class.Right)/float64(n), float64(r.Declined)/float64(n), r.MeanQuestions, r.P95Questions, bound, r.MeanQuestions/bound, r.ECE, r.OneHarmful.Share(), r.OneHarmful.Given)
					if answers {
						fmt.Print("  A ")
					}
					fmt.Println()
					if *long {
						fmt.Println("    losses", r.Losses[:min(8, len(r.Losses))], "confused", r.Confused[:min(10, len(r.Confused))])
					}
				}
			}
		}
	}
}

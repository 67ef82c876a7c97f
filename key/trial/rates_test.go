package trial_test

import (
	"math"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/trial"
)

// How often people misread, and how often they are taken to.
func TestMisreadRates(t *testing.T) {
	v := keytest.Model(t).Key().Catalog().Vocabulary()
	told := key.FileRates(v)
	even := 0.1
	of := func(r key.Rates) float64 { return r.Readings(v.Trait("tails"))[0][0] } // as it is
	usual, twice, tenth, fifth := of(told), of(told.Times(2)), of(key.EvenRates(v, 0.1)), of(key.EvenRates(v, 0.2))
	if usual == twice || usual == tenth || tenth == fifth || twice == fifth {
		t.Fatal("the rates cannot be told apart by this trait")
	}
	for _, row := range []struct {
		why              string
		rates            trial.MisreadRates
		people, believed float64
	}{
		{"nobody says", trial.MisreadRates{Vocabulary: told, Factor: 1, Known: true}, usual, usual},
		{"every trait alike, which is known", trial.MisreadRates{Vocabulary: told, Factor: 1, Even: &even, Known: true}, tenth, tenth},
		{"people by a name, whom nobody knows", trial.MisreadRates{Vocabulary: told, Factor: 2}, twice, usual},
		{"people by a name, believed", trial.MisreadRates{Vocabulary: told, Factor: 2, Believed: "0.2"}, twice, fifth},
		{"by the vocabulary", trial.MisreadRates{Vocabulary: told, Even: &even, Believed: trial.AsVocabulary, Known: true}, tenth, usual},
	} {
		people, believed, err := row.rates.Both(v)
		if err != nil || of(people) != row.people || of(believed) != row.believed {
			t.Errorf("%s: %v, not %v; believed %v, not %v; %v", row.why, of(people), row.people, of(believed), row.believed, err)
		}
	}
	if _, _, err := (trial.MisreadRates{Vocabulary: told, Factor: 1, Believed: "often"}).Both(v); err == nil {
		t.Error("believed to misread often")
	}
	for p, is := range map[float64]bool{0: true, 0.999: true, 1: false, -0.001: false, math.NaN(): false, math.Inf(1): false} {
		if trial.IsHardshipShare(p) != is {
			t.Errorf("a hardship of %v: %v", p, !is)
		}
	}
	for text, is := range map[string]bool{"": true, "vocabulary": true, "0.5": true, "0.51": false, "-0.1": false, "often": false} {
		if trial.IsBelieved(text) != is {
			t.Errorf("%q: %v", text, !is)
		}
	}
}

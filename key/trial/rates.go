package trial

import (
	"strconv"

	"rillkey/key"
	"rillkey/taxa"
)

// MostSpecimens bounds a trial: it takes memory for each.
const MostSpecimens = 1_000_000

// AsVocabulary is what people are believed to misread where that is as often as the
// vocabulary says.
const AsVocabulary = "vocabulary"

// MisreadRates say how often people misread in a trial, and how often they are taken to.
type MisreadRates struct {
	Vocabulary key.Rates
	Factor     float64  // how many times as often these people do
	Even       *float64 // every trait so often instead, 0 to 0.5; nil for none
	// Believed is AsVocabulary, or how often people are taken to misread every trait; where it is
	// empty as often as they do if that is Known, else as the vocabulary says.
	Believed string
	Known    bool
}

// IsBelieved reports whether a text is one that [MisreadRates] has for what is believed.
func IsBelieved(text string) bool {
	p, err := strconv.ParseFloat(text, 64)
	return text == "" || text == AsVocabulary || err == nil && IsMisreadRate(p)
}

// Both are the rates of the people and those that they are believed to have.
func (r MisreadRates) Both(v *taxa.Vocabulary) (people, believed key.Rates, err error) {
	people = r.Vocabulary.Times(r.Factor)
	if r.Even != nil {
		people = key.EvenRates(v, *r.Even)
	}
	switch {
	case r.Believed == AsVocabulary, r.Believed == "" && !r.Known:
		return people, r.Vocabulary, nil
	case r.Believed == "":
		return people, people, nil
	}
	rate, err := strconv.ParseFloat(r.Believed, 64)
	return people, key.EvenRates(v, rate), err
}

package main

import (
	"cmp"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// inquiryFlags say how an inquiry is led.
type inquiryFlags struct {
	order  string
	noLens bool
	sure   sureness
	rates  string
	far    string
}

func (f *inquiryFlags) register(flags *pflag.FlagSet) {
	flags.StringVar(&f.order, "order", string(key.AuthorsOrder),
		"which question comes next, `ORDER`: author (that of the key, while it works) or shortest")
	flags.BoolVar(&f.noLens, "no-lens", false, "nobody has a hand lens: ask nothing that needs one")
	flags.Var(&f.sure, "sure", sureHelp)
	flags.StringVar(&f.far, "far", "", "how `FAR` to name: end (as far as the key goes), counted (as far as the visit's protocol counts; "+
		"usual where people are asked for a visit) or kind (the kinds of a field sheet, by the short key \"kinds\")")
	flags.StringVar(&f.rates, "rates", "", "the group's own misread rates, `FILE` (see 'rillkey rates')")
}

// enough are the taxa that need no narrower name for the visit's protocol, none
// where the name goes as far as the key does. unsaid is how far where nobody said.
func (l *library) enough(f *inquiryFlags, unsaid string) ([]string, error) {
	far := cmp.Or(f.far, unsaid)
	switch {
	case far == farEnd:
		return nil, nil
	case l.header.Protocol == "":
		if f.far != farCounted {
			return nil, nil
		}
		return nil, misused("--far counted goes by the protocol of a visit, and there is none here; start one with 'rillkey visit " +
			"begin'")
	}
	_, rules, err := l.catalogAndRules()
	if err != nil {
		return nil, err
	}
	return rules.Enough(l.header.Protocol)
}

// sureHelp tells what --sure does.
var sureHelp = wording.Mark("ask until a name is this probable, `P` above 0.5 and below 1, and give none that is less (else ask " +
	"until 0.97 and give it from 0.90)")

// sureness is a probability for a name, 0 where nobody said.
type sureness float64

func (s *sureness) String() string {
	if *s == 0 {
		return ""
	}
	return strconv.FormatFloat(float64(*s), 'g', -1, 64)
}

func (s *sureness) Set(text string) error {
	p, err := units.Probability(text)
	if err != nil || !(p > 0.5 && p < 1) {
		return wording.NewError("it is no probability for a name, which lies above 0.5 and below 1")
	}
	*s = sureness(p)
	return nil
}

// Type names the flag's value.
func (*sureness) Type() string { return "P" }

// share is a flag's number from 0 to 1.
type share float64

func (s *share) String() string { return strconv.FormatFloat(float64(*s), 'g', -1, 64) }

func (s *share) Set(text string) error {
	p, err := units.Probability(text)
	*s = share(p)
	return err
}

// Type names the flag's value.
func (*share) Type() string { return "SHARE" }

// options are the flags as the inquiry takes them.
func (f *inquiryFlags) options() (key.Options, error) {
	o := key.DefaultOptions()
	if err := oneOf("order", f.order, []string{string(key.AuthorsOrder), string(key.Shortest)}); err != nil {
		return o, err
	}
	if f.far != "" {
		if err := oneOf("far", f.far, []string{farEnd, farCounted, farKind}); err != nil {
			return o, err
		}
	}
	o.Order, o.NoLens = key.Order(f.order), f.noLens
	if f.sure != 0 {
		o.Required, o.Settle = float64(f.sure), float64(f.sure)
	}
	return o, nil
}

// usualModel is the key in use with the vocabulary's misread rates.
func usualModel(l *library) (*key.Model, error) {
	k, err := l.key()
	if err != nil {
		return nil, err
	}
	return l.model(k, "")
}

// model is the key with the misread rates that the flags ask for.
func (l *library) model(k *key.Key, ratesFile string) (*key.Model, error) {
	rates, err := l.misreadRates(k, ratesFile)
	if err != nil {
		return nil, err
	}
	return k.Model(rates)
}

// misreadRates are the vocabulary's rates, or with a file those the group has
// learned.
func (l *library) misreadRates(k *key.Key, file string) (key.Rates, error) {
	v := k.Catalog().Vocabulary()
	base := key.FileRates(v)
	if file == "" {
		return base, nil
	}
	record, err := readRates(file, v)
	if err != nil {
		return base, err
	}
	return record.Rates(base), nil
}

// say tells an inquiry what was given without being asked: observations first,
// then the length, then the answers.
func say(q *key.Inquiry, answers string, observe []string, length float64) error {
	for _, o := range observe {
		trait, states, ok := strings.Cut(o, "=")
		if !ok {
			return misused("--observe %q is not of the form trait=state", o)
		}
		note := q.Observe
		if heard, own := strings.CutPrefix(trait, key.InOwnWords); own {
			trait, note = heard, q.Hear
		}
		if err := note(strings.TrimSpace(trait), plain.SplitList(states)...); err != nil {
			return misused("--observe %q: %w", o, err)
		}
	}
	if length > 0 {
		if err := q.ObserveLength(length); err != nil {
			return misused("--length: %w", err)
		}
	}
	for i, answer := range key.PathAnswers(answers) {
		if err := q.Say(answer); err != nil {
			return misused("--answers, number %d: %w", i+1, err)
		}
	}
	return nil
}

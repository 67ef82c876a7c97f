package scheme

import (
	"fmt"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Standing is what one scheme makes of a taxon. Programmes differ, so the same
// taxon may be sensitive in one scheme and only somewhat so in another.
type Standing struct {
	Scheme     string   `json:"scheme"` // id
	Title      string   `json:"title"`
	Kind       string   `json:"kind"` // empty where the taxon has no value
	Label      string   `json:"label"`
	Group      string   `json:"group"`
	GroupLabel string   `json:"group_label"`
	Worth      string   `json:"worth"`               // what the kind counts, such as "4", or by code "5.0 as R, 5.6 as C"
	ListedAs   string   `json:"listed_as,omitempty"` // the name in the publication, where it is another
	Status     string   `json:"status"`              // how far the value was confirmed
	Note       string   `json:"note,omitempty"`
	Why        Why      `json:"why,omitempty"`   // why it has no value: Open, NotListed, NotScored or UnknownTaxon
	Kinds      []string `json:"kinds,omitempty"` // labels of the kinds it may be, where open
}

// String is the standing on one line: "tolerance 4", or why there is none.
func (t Standing) String() string {
	switch t.Why {
	case "":
		if strings.HasSuffix(t.GroupLabel, " "+t.Worth) {
			return t.GroupLabel
		}
		return fmt.Sprintf("%s (%s)", t.GroupLabel, t.Worth)
	case WhyAmbiguous:
		if len(t.Kinds) == 1 {
			return wording.Sprintf("no value by itself: it may be %s", t.Kinds[0])
		}
		return wording.Sprintf("no value by itself: it may be any of %d kinds", len(t.Kinds))
	}
	return wording.Text("no value")
}

// Standing tells what the scheme makes of the taxon; the error says that there
// is no such scheme.
func (r *Rulebook) Standing(scheme, taxon string) (Standing, error) {
	s := r.Scheme(scheme)
	if s == nil {
		return Standing{}, wording.Errorf("there is no scheme %s; choose one of %s", plain.Quote(scheme), plain.List(r.schemeIDs()))
	}
	return r.standing(s, taxon), nil
}

// Standings tells what each scheme makes of the taxon, in the order of the
// schemes. Schemes that only use another one's kinds again are left out.
func (r *Rulebook) Standings(taxon string) []Standing {
	var all []Standing
	for _, s := range r.schemes {
		lender := r.Scheme(s.KindsFrom)
		if s.judges() && (lender == nil || len(s.Kinds) > len(lender.Kinds)) {
			all = append(all, r.standing(s, taxon))
		}
	}
	return all
}

// judges tells that the scheme says what kinds are worth.
func (s *Scheme) judges() bool {
	return len(s.Groups) > 0 && s.formula.worth(s, s.Groups[0].ID) != "" && s.KindsAt == ""
}

func (r *Rulebook) standing(s *Scheme, taxon string) Standing {
	t := Standing{Scheme: s.ID, Title: s.Title}
	p := s.Place(taxon)
	if t.Why = p.Why; p.Why != "" {
		for _, k := range p.Open {
			t.Kinds = append(t.Kinds, s.Kinds[k].Label)
		}
		return t
	}
	k := s.Kinds[p.Kind]
	g, _ := s.Group(k.Group)
	t.Kind, t.Label, t.Group, t.GroupLabel = k.ID, k.Label, g.ID, g.Label
	t.Worth, t.ListedAs, t.Status, t.Note = s.formula.worth(s, g.ID), k.ListedAs, k.Status, k.Note
	return t
}

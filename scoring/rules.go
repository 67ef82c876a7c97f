package scoring

import (
	"embed"
	"io/fs"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

//go:embed schemes/*.toml protocols/*.toml
var embedded embed.FS

// Rules grade visits by the schemes and protocols of a rulebook, for the taxa of
// one catalog.
type Rules struct {
	*scheme.Rulebook
	catalog *taxa.Catalog
	faunas  []func() *account.Fauna // none where nothing is known of any
}

// EmbeddedFiles are the files of the rules inside the program.
func EmbeddedFiles() fs.FS { return embedded }

// NoRules are rules without any scheme or protocol: there is nothing to grade by.
func NoRules(cat *taxa.Catalog) *Rules {
	return &Rules{Rulebook: scheme.NewRulebook(cat), catalog: cat}
}

// EmbeddedRules reads the rules inside the program. They were written for the
// catalog inside the program; with another one, kinds whose taxa it lacks
// never occur. A published family that the rules mark as absent has its value
// as soon as a catalog has it.
func EmbeddedRules(cat *taxa.Catalog) (*Rules, error) {
	own, err := taxa.Embedded()
	return readRules(embedded, "", cat, scheme.Lenient{Unknown: err != nil || cat.Base() != own, Present: true})
}

// LoadRules reads the rules in the folders schemes and protocols of fsys, as
// [scheme.Read] does.
func LoadRules(fsys fs.FS, dir string, cat *taxa.Catalog) (*Rules, error) {
	return readRules(fsys, dir, cat, scheme.Lenient{})
}

func readRules(fsys fs.FS, dir string, cat *taxa.Catalog, lenient scheme.Lenient) (*Rules, error) {
	book, err := scheme.Read(fsys, dir, cat, lenient)
	if err != nil {
		return nil, err
	}
	return &Rules{Rulebook: book, catalog: cat}, nil
}

// Account is the account of a visit: what its records are, once for all that is
// made of them.
func (r *Rules) Account(v *visit.Visit) *account.Account {
	return account.OfVisit(v, r.catalog).JudgedAmong(r.faunas...)
}

// JudgedAmong is the same rules for visits to places with some faunas, which are asked for
// with the first visit: by what is common there the names of a visit are judged
// together.
func (r *Rules) JudgedAmong(faunas ...func() *account.Fauna) *Rules {
	return &Rules{r.Rulebook, r.catalog, faunas}
}

// grader works out grades by one scheme.
type grader struct{ *scheme.Scheme }

// grader is that of the scheme with the id, which there is.
func (r *Rules) grader(id string) grader { return grader{r.Scheme(id)} }

package main

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/trim"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func coupletsCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "couplets",
		Short: "For authors of keys: check, stats, show, trim, renumber, draft, compare, merge, failures",
		RunE:  group,
	}
	if a.meant("couplets") {
		cmd.AddCommand(checkCommand(a), statsCommand(a), layoutCommand(a), trimCommand(a), renumberCommand(a), draftCommand(a),
			trialCommand(a), failuresCommand(a), compareKeysCommand(a), mergeKeysCommand(a))
	}
	return cmd
}

func statsCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "stats [FILE]",
		Short:   "How long the walks through a key are, and where animals get lost",
		Example: "  rillkey couplets stats\n  rillkey couplets stats mykey.toml",
		Args:    atMostOneFile,
		RunE: func(_ *cobra.Command, files []string) error {
			k, err := a.keyOf(files)
			if err != nil {
				return err
			}
			return a.give(k.Stats(), func() error { return show.Stats(a.stdout, a.width, k.Title(), k.Stats()) })
		},
	}
}

// atMostOneFile refuses a second file.
func atMostOneFile(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return misused("%s takes one file; see '%s --help'", cmd.CommandPath(), cmd.CommandPath())
	}
	return nil
}

// couplets reads a key from a file, or a built-in one by its name; of a built-in key
// for every region what lives in the catalog's.
func (l *library) couplets(file string, catalog *taxa.Catalog) (*couplets.Sound, error) {
	_, s, err := l.examine(file, catalog)
	name, ok := couplets.EmbeddedFile(file)
	r := catalog.Region()
	if err != nil || file == "" || !ok || s.Region != "" || r == nil {
		return s, err
	}
	return livingIn(r, s, name, catalog)
}

// livingIn is a built-in key with those end points alone that live in a region.
func livingIn(r *taxa.Region, s *couplets.Sound, name string, catalog *taxa.Catalog) (*couplets.Sound, error) {
	lives := func(end string) bool { return r.Holds(end, catalog) }
	if !slices.ContainsFunc(s.Ends, func(end *taxa.Taxon) bool { return !lives(end.ID) }) {
		return s, nil
	}
	text, err := fs.ReadFile(couplets.Embedded(), name)
	if err != nil {
		return nil, err
	}
	cut, err := trim.Keep(text, s, lives)
	if err != nil {
		return nil, err
	}
	return couplets.LoadText(cut.Text, name, catalog)
}

// examine reads a key as far as it can be read: a built-in one by its name; without
// one that of the region's folder, else the usual one.
func (l *library) examine(file string, catalog *taxa.Catalog) (*couplets.File, *couplets.Sound, error) {
	if file == "" && l.ownKey() {
		return l.home.Key(catalog)
	}
	if name, ok := couplets.EmbeddedFile(file); ok {
		f, s, err := couplets.Examine(couplets.Embedded(), name, name, catalog)
		return f, s, l.otherAnimals(err, true)
	}
	dir, name := splitPath(file)
	f, s, err := couplets.Examine(authored.DirFS(dir), name, file, catalog)
	return f, s, noKey(file, fileError(file, l.otherAnimals(err, false)))
}

// kindsOf is the short key of kinds; in a region with animals of its own, which that
// does not end in, it is the region's key.
func kindsOf(l *library, catalog *taxa.Catalog) (*couplets.Sound, error) {
	sound, err := l.couplets(kindsKey, catalog)
	if couplets.ForOtherAnimals(err) && l.keyFile == "" {
		return l.couplets(l.keyName(catalog.Region()), catalog)
	}
	return sound, err
}

// otherAnimals says which flag is missing where a key was made for other animals
// than those in use.
func (l *library) otherAnimals(err error, builtIn bool) error {
	var found authored.Findings
	if !couplets.ForOtherAnimals(err) || !errors.As(err, &found) {
		return err
	}
	f := found[0]
	switch {
	case builtIn:
		f.Pos = authored.Pos{File: "the built-in key " + strings.TrimSuffix(f.File, ".toml")}
		f.Hint = wording.Text("name the key of your own animals with --key, such as --key mine.toml, or leave --taxa out")
	case l.taxaDir == "":
		f.Hint = wording.Text("name the folder of its animals with --taxa, such as --taxa mytaxa")
	default:
		f.Hint = wording.Sprintf("are its animals in another folder than %s? Name that one with --taxa", plain.Quote(l.taxaDir))
	}
	return authored.Findings{f}
}

// fileError says plainly that a name can be none of a file.
func fileError(file string, err error) error {
	if err != nil && errors.Is(err, fs.ErrInvalid) {
		return wording.Errorf("%s cannot be the name of a file", plain.Quote(file))
	}
	return err
}

// keyOf is the key of the file named, else that of --key, else the embedded one.
func (l *library) keyOf(files []string) (*key.Key, error) {
	if len(files) > 0 {
		l.keyFile = files[0]
	}
	return l.key()
}

package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/phone"
	"rillkey/cmd/rillkey/pocket"
	"rillkey/cmd/rillkey/region"
	"rillkey/couplets"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func pocketCommand(a *app) *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:   "pocket",
		Short: "Write the whole program as one page for a phone",
		Long: `Writes one HTML file that names and counts animals on a phone: questions with
drawings, the tally, the grade. It is opened like any file, from a memory card, a
message or a folder, and needs no network and no installation. Each entry is kept
in the phone's browser at once; the visit leaves the page as a file, which
'rillkey visit merge' unites with others.

A region of your own goes onto the page whole: its key, animals, rules and words, its
drawings, and its photographs made small, which stand beneath the names.

A released program has the page inside. Else it is built from the source, in
whose folder the command must then run, with the Go that built this one.`,
		Example: `  rillkey pocket --to stream.html
  rillkey --region north-west-europe pocket --to stream.html
  rillkey --region our-brook pocket --to our-brook.html`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return writePocket(cmd.Context(), a, to) },
	}
	cmd.Flags().StringVar(&to, "to", "", "the new `FILE`")
	return cmd
}

func writePocket(ctx context.Context, a *app, to string) error {
	if a.json {
		return misused("pocket writes a page as HTML; leave --json out")
	}
	if to == "" {
		return misused("say where the page goes: --to stream.html")
	}
	kept, err := keptFor(a, "a page for phones")
	if err != nil {
		return err
	}
	if err := refuseExisting(to); err != nil {
		return err
	}
	page, err := kept.page()
	if err != nil {
		return err
	}
	callOff := a.writesNothing()
	page.Program, err = pocket.BuildProgram(ctx, ".", a.leaving.runs)
	callOff()
	if err != nil {
		return err
	}
	err = a.newFile(to, slices.Clone(a.sources), page.Write)
	if err == nil {
		a.plainly("The page is in %s. Open it in the phone's browser.", to)
	}
	return err
}

// onPhones is what phones name and count with: a built-in key by its name, or a region
// of one's own.
type onPhones struct {
	key     string             // empty for that of own
	own     *region.OpenRegion // nil for what is built in
	edition folder.Edition
}

// keptFor is what phones are given: the key of --key or of the region in use.
func keptFor(a *app, what string) (out onPhones, err error) {
	catalog, err := a.regionalCatalog()
	if err != nil {
		return out, err
	}
	if out.own, err = a.folder(); err != nil {
		return out, err
	}
	r := catalog.Region()
	file, ok := couplets.EmbeddedFile(a.keyName(r))
	if !ok || a.taxaDir != "" || a.rulesDir != "" {
		return out, misused("%s asks a built-in key (%s), or the region of a folder of your own: "+
			"put key, animals and rules into one and name it with --region", what, strings.Join(couplets.EmbeddedNames(), ", "))
	}
	if out.key = strings.TrimSuffix(file, ".toml"); out.own == nil {
		out.edition, err = builtInEdition(out.key)
		return out, err
	}
	if a.ownKey() {
		out.key = ""
	}
	if report := checkRegion(out.own); len(report.Errors) > 0 {
		return out, errors.Join(authored.Findings(report.Errors), wording.NewError("it goes on no phone: mend this first"))
	}
	out.edition, err = a.edition(r)
	return out, err
}

// kit is what the table's own pages work with.
func (o onPhones) kit() *phone.Kit {
	if o.own == nil {
		return phone.NewKit(o.key)
	}
	return phone.NewRegionKit(o.own, o.key)
}

// page is the page for phones, without its program.
func (o onPhones) page() (pocket.PhonePage, error) {
	page := pocket.PhonePage{Key: o.key, Edition: o.edition}
	if o.own == nil {
		return page, nil
	}
	parcel, err := o.own.Parcel()
	if err != nil {
		return page, err
	}
	if page.Region, err = pocket.Squeeze(parcel); err != nil {
		return page, err
	}
	if n := len(page.Region); n > pocket.MostRegion {
		return page, wording.Errorf("%s: packed it has %.1f MB, and a page for phones takes %d; leave some photographs out",
			plain.Printable(o.own.Shown), float64(n)/(1<<20), pocket.MostRegion>>20)
	}
	return page, nil
}

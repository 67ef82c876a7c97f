package main

import (
	"os"
	"path/filepath"

	"rillkey/key/draft"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// keyAgain is the text of a drafted key. Where it replaces a key that was drafted
// before, what was written into that by hand is kept.
func keyAgain(p *plan, d *draft.Draft, flags draftFlags) ([]byte, *draft.Kept, error) {
	if flags.file != "" && flags.write && isFile(flags.file) {
		old, err := editionOf(flags.file)
		if err != nil {
			return nil, nil, wording.Errorf("%s is to be drafted again, and cannot be read: %w", plain.Quote(flags.file), err)
		}
		text, kept, err := d.Again(p.head, old.File, old.Text)
		if err != nil {
			return nil, nil, notKept(flags.file, err)
		}
		if kept.Couplets > 0 {
			p.keeps(flags.file)
			return draft.Seal(text), kept, nil
		}
	}
	return draft.Seal(d.Text(p.head)), nil, nil
}

// keeps notes that a file holds all that was written into it by hand.
func (p *plan) keeps(name string) {
	if p.again == nil {
		p.again = map[string]bool{}
	}
	p.again[name] = true
}

func notKept(name string, err error) error {
	return wording.Errorf("what was written into %s by hand cannot be kept: %w; lay it out so, or write the draft to another name",
		plain.Quote(name), err)
}

// catalogAgain puts into the files of a sheet's catalog what was written by hand into
// those that are there.
func catalogAgain(p *plan, sheet *draft.Spreadsheet, dir string) error {
	if dir == "" || !draft.EditedByHand(p.files) {
		return nil
	}
	for base, drafted := range p.files {
		name := filepath.Join(dir, base)
		if !isFile(name) {
			continue
		}
		old, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		var report authored.Report
		if authored.Parse(name, old, &report) == nil {
			return wording.Errorf("%s is to be drafted again, and cannot be read: %w", plain.Quote(name), report.Findings())
		}
		text, err := sheet.CatalogAgain(string(old), string(drafted))
		if err != nil {
			return notKept(name, err)
		}
		p.files[base] = text
		p.keeps(name)
	}
	return nil
}

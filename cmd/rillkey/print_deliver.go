package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// delivery is where a page goes.
type delivery struct {
	file, pdf, sheet string
	open             bool
}

// sheets are the sizes of paper, as CSS names them.
var sheets = map[string]string{"a4": "A4", "letter": "letter"}

// deliverable refuses what cannot be delivered, before any work is done for it.
func deliverable(a *app, d *delivery) error {
	switch {
	case a.json:
		return misused("print writes a page as HTML; leave --json out")
	case sheets[strings.ToLower(d.sheet)] == "":
		return misused("--sheet-size is a4 or letter, not %q", d.sheet)
	case a.screen && d.file == "" && d.pdf == "" && !d.open:
		return misused("a page is HTML, which a terminal does not show: add --open, --to page.html, or > page.html")
	}
	for _, path := range []string{d.file, d.pdf} {
		if path == "" {
			continue
		}
		if err := refuseExisting(path); err != nil {
			return err
		}
	}
	return nil
}

// deliverPage writes a page where d says, and says where that is.
func deliverPage(a *app, p *paper.Page, d *delivery) error {
	if d.file != "" {
		if err := a.newFile(d.file, a.sources, whole(p)); err != nil {
			return err
		}
		fmt.Fprintln(a.stderr, wording.Sprintf("The page is in %s.", plain.Printable(d.file)))
	}
	if d.open {
		if err := openPage(a, p, d.file); err != nil {
			return err
		}
	}
	switch {
	case d.pdf != "":
		return makePDF(a, p, d)
	case d.file == "" && !d.open:
		return whole(p)(a.stdout)
	}
	return nil
}

func whole(p *paper.Page) func(io.Writer) error {
	return func(w io.Writer) error { _, err := p.WriteTo(w); return err }
}

// openPage opens a page in the browser, from the file it is in or from a new
// one among the temporary files, which stays for as long as the browser needs
// it.
func openPage(a *app, p *paper.Page, path string) error {
	if path == "" {
		dir, err := wholefile.LeaveFolder(os.TempDir())
		if err != nil {
			return wording.Errorf("the page cannot be put among the temporary files: %w; name a file with --to", err)
		}
		path = filepath.Join(dir, "page.html")
		if err := wholefile.New(path, wholefile.SharedMode, whole(p)); err != nil {
			return err
		}
	}
	full, err := filepath.Abs(path) // a name that begins with "-" is no flag of the opener's
	if err != nil {
		return err
	}
	name, args := opener(runtime.GOOS)
	if err := exec.Command(name, append(args, full)...).Run(); err != nil {
		return wording.Errorf("no browser could be opened with %s (%w): open %s yourself", name, err, plain.Printable(path))
	}
	fmt.Fprintln(a.stderr, wording.Sprintf("Opened %s.", plain.Printable(path)))
	return nil
}

// opener is the command by which a system opens a file as its owner prefers.
func opener(system string) (name string, args []string) {
	switch system {
	case "darwin":
		return "open", nil
	case "windows":
		return "rundll32", []string{"url.dll,FileProtocolHandler"}
	}
	return "xdg-open", nil
}

package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"rillkey/cmd/rillkey/paper"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/wholefile"
)

// delivery is where a page goes.
type delivery struct {
	to, pdf, sheet string
	open           bool
}

// sheets are the sizes of paper, as CSS names them.
var sheets = map[string]string{"a4": "A4", "letter": "letter"}

// deliverable refuses what cannot be delivered, before any work is done for it.
func (a *app) deliverable(d *delivery) error {
	switch {
	case a.json:
		return misused("print writes a page as HTML; leave --json out")
	case sheets[strings.ToLower(d.sheet)] == "":
		return misused("--sheet-size is a4 or letter, not %q", d.sheet)
	case a.screen && d.to == "" && d.pdf == "" && !d.open:
		return misused("a page is HTML, which a terminal does not show: add --open, --to FILE, or > FILE")
	}
	for _, path := range []string{d.to, d.pdf} {
		if path == "" {
			continue
		}
		if err := exists(path); err != nil {
			return err
		}
	}
	return nil
}

// deliverPage writes a page where d says, and says where that is.
func (a *app) deliverPage(p *paper.Page, d *delivery) error {
	if d.to != "" {
		if err := newFile(d.to, a.from, whole(p)); err != nil {
			return err
		}
		fmt.Fprintln(a.err, "The page is in "+show.Safe(d.to)+".")
	}
	if d.open {
		if err := a.openPage(p, d.to); err != nil {
			return err
		}
	}
	switch {
	case d.pdf != "":
		return a.makePDF(p, d)
	case d.to == "" && !d.open:
		return whole(p)(a.out)
	}
	return nil
}

func whole(p *paper.Page) func(io.Writer) error {
	return func(w io.Writer) error { _, err := p.WriteTo(w); return err }
}

// openPage opens a page in the browser, from the file it is in or from a new
// one among the temporary files, which stays for as long as the browser needs
// it.
func (a *app) openPage(p *paper.Page, path string) error {
	if path == "" {
		dir, err := wholefile.LeaveFolder(os.TempDir())
		if err != nil {
			return fmt.Errorf("the page cannot be put among the temporary files: %w; name a file with --to", err)
		}
		path = filepath.Join(dir, "page.html")
		if err := newFile(path, nil, whole(p)); err != nil {
			return err
		}
	}
	name, args := opener(runtime.GOOS)
	if err := exec.Command(name, append(args, path)...).Run(); err != nil {
		return fmt.Errorf("no browser could be opened with %s (%w): open %s yourself", name, err, show.Safe(path))
	}
	fmt.Fprintln(a.err, "Opened "+show.Safe(path)+".")
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

// makePDF has a Chromium print the page, beside the place the PDF goes to: one
// that is kept in a box of its own may not see the temporary files.
func (a *app) makePDF(p *paper.Page, d *delivery) error {
	browser, err := chromium()
	if err != nil {
		return err
	}
	dir, remove, err := wholefile.ScratchFolder(filepath.Dir(d.pdf))
	if err != nil {
		return cannotWrite(d.pdf, err)
	}
	defer remove()
	p.Style("@page { size: " + sheets[strings.ToLower(d.sheet)] + "; }\n")
	made := filepath.Join(dir, "page.pdf")
	source := filepath.Join(dir, "page.html")
	if err := newFile(source, nil, whole(p)); err != nil {
		return err
	}
	if err := printWith(browser, dir, source, made); err != nil {
		return err
	}
	err = newFile(d.pdf, a.from, func(w io.Writer) error {
		f, err := os.Open(made)
		if err != nil {
			return fmt.Errorf("%s made no PDF; open the page and print it from the browser", browser)
		}
		defer f.Close()
		_, err = io.Copy(w, f)
		return err
	})
	if err == nil {
		fmt.Fprintln(a.err, "The PDF is in "+show.Safe(d.pdf)+".")
	}
	return err
}

// longestPrint is how long a browser may take; 50 sheets take a few seconds.
const longestPrint = 2 * time.Minute

func printWith(browser, dir, source, made string) error {
	source, err := filepath.Abs(source)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), longestPrint)
	defer cancel()
	args := []string{"--headless", "--disable-gpu", "--no-first-run", "--disable-extensions",
		"--user-data-dir=" + filepath.Join(dir, "profile"), "--no-pdf-header-footer", "--print-to-pdf=" + made}
	if os.Geteuid() == 0 {
		args = append(args, "--no-sandbox") // it does not start as root otherwise
	}
	cmd := exec.CommandContext(ctx, browser, append(args, fileURL(source))...)
	cmd.WaitDelay = time.Second
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s could not print the page (%w); open the page and print it from the browser", browser, err)
	}
	return nil
}

func fileURL(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive's letter
	}
	return (&url.URL{Scheme: "file", Path: path}).String()
}

// chromium is the program of that family that is found first.
func chromium() (string, error) {
	for _, name := range []string{
		"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
		"/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
		"/Applications/Chromium.app/Contents/MacOS/Chromium",
		`C:\Program Files\Google\Chrome\Application\chrome.exe`,
		`C:\Program Files (x86)\Google\Chrome\Application\chrome.exe`,
		`C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`,
	} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errors.New("no Chromium or Chrome was found to make a PDF; use --open and print from the browser")
}

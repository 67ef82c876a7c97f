package main

import (
	"context"
	"fmt"
	"io"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// makePDF has a Chromium print the page, beside the place the PDF goes to: one
// that is kept in a box of its own may not see the temporary files.
func makePDF(a *app, p *paper.Page, d *delivery) error {
	browser, err := chromium()
	if err != nil {
		return err
	}
	dir, remove, err := wholefile.ScratchFolder(filepath.Dir(d.pdf))
	if err != nil {
		return cannotWrite(d.pdf, err)
	}
	defer remove()
	p.Style(fmt.Sprintf("@page { size: %s; }\n", sheets[strings.ToLower(d.sheet)]))
	made := filepath.Join(dir, "page.pdf")
	source := filepath.Join(dir, "page.html")
	if err := wholefile.New(source, wholefile.SharedMode, whole(p)); err != nil {
		return err
	}
	callOff := a.writesNothing()
	err = printWith(a, browser, dir, source, made)
	callOff()
	if err != nil {
		return err
	}
	err = a.newFile(d.pdf, a.sources, func(w io.Writer) error {
		f, err := os.Open(made)
		if err != nil {
			return wording.Errorf("%s made no PDF; open the page and print it from the browser", browser)
		}
		defer f.Close()
		_, err = io.Copy(w, f)
		return err
	})
	if err == nil {
		fmt.Fprintln(a.stderr, wording.Sprintf("The PDF is in %s.", plain.Printable(d.pdf)))
	}
	return err
}

// longestPrint is how long a browser may take; 50 sheets take a few seconds.
const longestPrint = 2 * time.Minute

// offlineFlags keep a Chromium from asking the network for anything: by names, through
// a proxy, or to see which networks there are.
var offlineFlags = []string{
	"--host-resolver-rules=MAP * ~NOTFOUND", "--no-proxy-server", "--disable-background-networking", "--disable-component-update",
	"--disable-sync", "--disable-default-apps", "--disable-domain-reliability", "--disable-quic", "--no-pings",
}

func printWith(a *app, browser, dir, source, made string) error {
	source, err := filepath.Abs(source)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), longestPrint)
	defer cancel()
	args := append([]string{"--headless", "--disable-gpu", "--no-first-run", "--disable-extensions",
		"--user-data-dir=" + filepath.Join(dir, "profile"), "--no-pdf-header-footer", "--print-to-pdf=" + made}, offlineFlags...)
	if os.Geteuid() == 0 {
		args = append(args, "--no-sandbox")
		a.complain(wording.Sprintf("rillkey: as root %s starts only without its sandbox; it is given nothing but this page", browser))
	}
	cmd := exec.CommandContext(ctx, browser, append(args, fileURL(source))...)
	cmd.Env = temporaryIn(dir, os.Environ())
	if err := a.leaving.runs(cmd); err != nil {
		return wording.Errorf("%s could not print the page (%w); open the page and print it from the browser", browser, err)
	}
	return nil
}

// temporaryIn has a program put its temporary files into a folder that is taken away
// afterwards. The name of a socket, which a browser makes there, has little room.
func temporaryIn(dir string, env []string) []string {
	const longest = 104 - len("/org.chromium.Chromium.XXXXXX/SingletonSocket") - 1
	if dir, err := filepath.Abs(dir); err == nil && len(dir) <= longest {
		return append(env, "TMPDIR="+dir)
	}
	return env
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
	return "", wording.NewError("no Chromium or Chrome was found to make a PDF; use --open and print from the browser")
}

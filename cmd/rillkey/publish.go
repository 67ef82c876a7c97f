package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"maps"
	"net/url"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/publish"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/export"
	"rillkey/scoring/network"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type publishFlags struct {
	folder, title, group, terms, address, streams, today, memory string
}

func publishCommand(a *app) *cobra.Command {
	var f publishFlags
	cmd := &cobra.Command{
		Use:   "publish [FILE or FOLDER… | postgres://…]",
		Short: "Make a web site of many visits, for everybody to see",
		Long: `Makes a site of plain pages that any web server can give out, and that opens
from a folder too: a page for each site, stream and year, sketches of where they
lie, a feed of new visits, and the tables behind it all. No page needs a script
or asks another server for anything.

Finished visits are shown, of files and folders or of the database of a network.
People are never named, what they wrote in their own words stays at home, and an
obscured site has neither its name nor its exact place anywhere. Which stream a site lies on is told by its name, up to a comma or
a word such as "above", or by --streams, a file with a table for each stream:

  [stream.tanyard-brook]
  title = "Tanyard Brook"
  sites = ["Tanyard Brook above the footbridge", "The mill"]

Typed again, the command makes only those files anew that rest on something that
has changed, and removes pages of visits that are gone. A file in the folder that
it did not make, or that somebody changed, is left alone and named. What it
remembers of the visits is in a file beside the folder, for its owner alone; put
the folder on the web server, not that file.`,
		Example: `  rillkey publish visits --to public --title "Our streams" --group "Saturday group"
  rillkey publish visits --to public --address https://example.org/streams/`,
		RunE: func(_ *cobra.Command, args []string) error { return publishVisits(a, f, args) },
	}
	if !a.meant("publish") {
		return cmd
	}
	flags := cmd.Flags()
	flags.StringVar(&f.folder, "to", "", "the `FOLDER` of the site; it is made where it is not there")
	flags.StringVar(&f.title, "title", wording.Mark("Animals of our streams"), "what the site is called, `TEXT`")
	flags.StringVar(&f.group, "group", "", "`NAME` of the group that publishes it")
	flags.StringVar(&f.terms, "licence", "", "the `TERMS` others may use the data on")
	flags.StringVar(&f.address, "address", "", "where the site will stand, an `ADDRESS` with https://, for its feed")
	flags.StringVar(&f.streams, "streams", "", "a `FILE` that says which sites lie on which stream")
	flags.StringVar(&f.today, "today", "", "leave out visits after this `DAY`, as 2026-05-16 (else the present day)")
	flags.StringVar(&f.memory, "memory", "", "the `FILE` to remember visits in (else beside the folder, ending in .memory)")
	return cmd
}

func publishVisits(a *app, f publishFlags, paths []string) error {
	if len(paths) == 0 {
		paths = []string{"."}
	}
	o, err := publishOptions(a, f)
	if err != nil {
		return err
	}
	defer a.ifLeft(wording.Text("left: pages that are made stay, each of them whole; the same command, typed again, makes the others"))()
	var done func()
	if o.Visits, done, err = a.publishSource(paths); err != nil {
		return err
	}
	defer done()
	// What is known of all visits stays in use to the end: to go through it often costs
	// a fifth of the time.
	defer debug.SetGCPercent(debug.SetGCPercent(300))
	watched := a.progress("visits", len(o.Visits.Names))
	o.Read = watched.Step
	result, err := publish.Make(o)
	watched.Done()
	if result != nil {
		for _, p := range result.Problems {
			a.complain("rillkey: " + plain.Printable(p))
		}
	}
	if errors.Is(err, publish.ErrNoFinishedVisit) {
		if len(result.Open) > 0 {
			err = wording.Errorf("%w; one is finished by: rillkey visit finish --visit %s", err, plain.ShellWord(result.Open[0]))
		}
		return fault{statusCannotSay, err}
	}
	if err != nil {
		return err
	}
	a.kept(f.folder)
	return tellPublished(a, f, result)
}

// publishOptions are all but where the visits are.
func publishOptions(a *app, f publishFlags) (o publish.Options, err error) {
	if f.folder == "" {
		return o, misused("--to is missing; name the folder of the site")
	}
	if info, err := os.Stat(f.folder); err == nil && !info.IsDir() {
		return o, misused("--to: %s is a file; name a folder", plain.Printable(f.folder))
	}
	o = publish.Options{Dir: f.folder, Title: plain.OneLine(wording.Text(f.title)), Group: plain.OneLine(f.group),
		Terms: plain.OneLine(f.terms), Seed: seed, Today: a.now()}
	if o.Title == "" {
		return o, misused("--title is empty; a site needs a title")
	}
	o.Memory = cmp.Or(f.memory, filepath.Clean(f.folder)+".memory")
	if f.today != "" {
		if o.Today, err = time.Parse(time.DateOnly, f.today); err != nil {
			return o, misused("--today: %q is no day; write it as 2026-05-16", f.today)
		}
	}
	if o.Address, err = webAddress(f.address); err != nil {
		return o, err
	}
	if f.streams != "" {
		dir, name := splitPath(f.streams)
		if o.Streams, err = publish.LoadStreams(authored.DirFS(dir), name, plain.Printable(f.streams)); err != nil {
			return o, err
		}
	}
	if o.Catalog, o.Rules, err = a.catalogAndRules(); err != nil {
		return o, err
	}
	o.Regional = a.describing(export.Knowledge{Catalog: o.Catalog, Rules: o.Rules})
	o.Maker, err = a.maker()
	return o, err
}

// webAddress is the address of a folder on the web, with a slash at its end.
func webAddress(typed string) (string, error) {
	if typed == "" {
		return "", nil
	}
	u, err := url.Parse(typed)
	if err != nil || u.Host == "" || u.Scheme != "https" && u.Scheme != "http" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return "", misused("--address: %s is no address of a folder on the web; write it as https://example.org/streams/",
			plain.Quote(typed))
	}
	return strings.TrimSuffix(u.String(), "/") + "/", nil
}

// describing gives what describes a visit of a header: its own region and the class
// words of its protocol. Several may ask at once.
func (l *library) describing(usual export.Knowledge) func(visit.Header) export.Knowledge {
	of := l.knowledgeOf(usual)
	var lock sync.Mutex
	known := map[[2]string]export.Knowledge{}
	return func(h visit.Header) export.Knowledge {
		lock.Lock()
		defer lock.Unlock()
		id := [2]string{h.Region, h.Protocol}
		k, ok := known[id]
		if !ok {
			if k = usual; of != nil {
				k = of(&visit.Visit{Header: h})
			}
			k = export.Knowledge{Catalog: worded(k.Catalog, k.Rules, h.Protocol), Rules: k.Rules}
			known[id] = k
		}
		return k
	}
}

// maker is a fingerprint of this program and of all data in use.
func (a *app) maker() (string, error) {
	var program []byte
	path, err := os.Executable()
	if err == nil {
		program, err = os.ReadFile(path)
	}
	if err != nil {
		return "", wording.Errorf("the program cannot be read, by which its pages are told from those of another: %w", err)
	}
	catalog, err := a.wholeCatalog()
	if err != nil {
		return "", err
	}
	r, err := a.region(catalog)
	if err != nil {
		return "", err
	}
	marks, err := a.edition(r)
	if err != nil {
		return "", err
	}
	return publish.Maker(program, append(marks, a.regionName, a.keyFile, wording.Language())), nil
}

// publishSource is where the visits to publish are read from, and what ends that.
func (a *app) publishSource(paths []string) (publish.NamedVisits, func(), error) {
	address, err := oneDatabase(paths)
	if err != nil {
		return publish.NamedVisits{}, nil, misused("%w", err)
	}
	if address != "" {
		return a.publishDatabase(address)
	}
	files, err := visitFiles(paths)
	if err != nil {
		return publish.NamedVisits{}, nil, err
	}
	return publish.NamedVisits{Names: files, Mark: fileMark, Read: readSteady}, func() {}, nil
}

// publishDatabase reads visits from the database of a network, one at a time.
func (a *app) publishDatabase(address string) (s publish.NamedVisits, done func(), err error) {
	ctx := context.Background()
	db, err := a.database(ctx, address)
	if err != nil {
		return s, nil, err
	}
	keys, err := db.Keys(ctx)
	var marks map[string]string
	if err == nil {
		marks, err = db.Marks(ctx, keys)
	}
	if err != nil {
		db.Close()
		return s, nil, err
	}
	at := map[string]network.GroupVisit{}
	for _, k := range keys {
		at[k.Name()] = k
		s.Names = append(s.Names, k.Name())
	}
	s.Mark = func(name string) (string, error) { return marks[name], nil }
	var lock sync.Mutex // of the one connection
	s.Read = func(name string) (v *visit.Visit, err error) {
		lock.Lock()
		defer lock.Unlock()
		ended := db.Source(ctx, []network.GroupVisit{at[name]}).Each(func(i series.Item) bool {
			v, err = i.Read()
			return true
		})
		return v, errors.Join(ended, err)
	}
	return s, db.Close, nil
}

// fileMark is the checksum of a file.
func fileMark(file string) (string, error) {
	f, err := authored.OpenFile(file, os.O_RDONLY)
	if err != nil {
		return "", wording.Errorf("%s cannot be read: %w", plain.Printable(file), fileCause(err))
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := f.WriteTo(sum); err != nil {
		return "", wording.Errorf("%s cannot be read: %w", plain.Printable(file), err)
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// tellPublished says what was done, and what the publisher should know.
func tellPublished(a *app, f publishFlags, r *publish.SiteSummary) error {
	for _, site := range slices.Sorted(maps.Keys(r.Naming)) {
		a.complain(wording.Sprintf("rillkey: the name of the site %s holds the name of somebody who was there, and is shown; "+
			"it gets another by: rillkey visit amend --visit %s", plain.Quote(site), plain.ShellWord(r.Naming[site])))
	}
	for _, file := range r.Left {
		a.complain(wording.Sprintf("rillkey: left as it is, since this program did not make it or somebody changed it: %s",
			plain.Printable(filepath.Join(f.folder, filepath.FromSlash(file)))))
	}
	said := show.Published{Target: f.folder, Visits: r.Visits, Sites: r.Sites, Streams: r.Streams, Years: r.Years, Files: r.Files,
		Written: r.Written,
		Removed: r.Removed, Left: append([]string{}, r.Left...), Open: len(r.Open), Future: r.Future}
	if len(r.Open) > 0 {
		said.FirstOpen = r.Open[0]
	}
	err := a.give(said, func() error { return said.Text(a.stdout, a.width) })
	if err == nil && len(r.Problems)+len(r.Left) > 0 {
		err = fault{status: statusBadData}
	}
	return err
}

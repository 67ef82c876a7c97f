package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/archive"
	"rillkey/scoring/wholefile"
)

type listFlags struct{ site, from, to, taxon, person string }

func (a *app) listCommand() *cobra.Command {
	var f listFlags
	cmd := &cobra.Command{
		Use:   "list [FOLDER]",
		Short: "List the visits of a folder: site, date, grade, state",
		Long: `Lists the visits in a folder and the folders in it, which are a group's archive.
Names are found however they are written. What was read is remembered in your
cache folder until a file changes, so the second list is quick.`,
		Example: `  rillkey visit list
  rillkey visit list --site tanyard --from 2025-04 --taxon stonefly`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return misused("one folder at a time; %q is too many", args[1])
			}
			return a.list(f, append(args, ".")[0])
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.site, "site", "", "only visits to this site, `NAME` or part of it")
	flags.StringVar(&f.from, "from", "", "only from this `DAY` on, as 2026-05-16, 2026-05 or 2026")
	flags.StringVar(&f.to, "to", "", "only up to this `DAY`, likewise")
	flags.StringVar(&f.taxon, "taxon", "", "only visits that found this animal, any `NAME` of it or of what it belongs to")
	flags.StringVar(&f.person, "person", "", "only visits with this person, `NAME` or part of it")
	return cmd
}

func (a *app) list(f listFlags, dir string) error {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	q := archive.Query{Site: f.site, From: f.from, To: f.to, Person: f.person}
	for flag, value := range map[string]string{"from": f.from, "to": f.to} {
		if value != "" && !someDay(value) {
			return misused("--%s: %q is no day; write it as 2026-05-16, 2026-05 or 2026", flag, value)
		}
	}
	if f.taxon != "" {
		t, err := a.taxonMeant(catalog, f.taxon)
		if err != nil {
			return misused("--taxon: %w", err)
		}
		q.Taxon = func(id string) bool { return catalog.IsUnder(id, t.ID) }
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return misused("there is no folder %s", show.Safe(dir))
	}
	entries, err := a.visitsIn(dir, rules)
	if err != nil {
		return err
	}
	found := show.NewVisits(archive.Find(entries, q), len(entries))
	if a.json {
		err = show.JSON(a.out, found)
	} else {
		err = found.Text(a.out, a.width)
	}
	if err == nil && found.Unreadable > 0 {
		err = fault{status: statusBadData}
	}
	return err
}

// someDay tells whether s is a day, a month or a year.
func someDay(s string) bool {
	for _, rest := range []string{"", "-01", "-01-01"} {
		if realDate(s+rest) == nil {
			return true
		}
	}
	return false
}

// visitsIn lists a folder, remembering in the cache folder what was read. That
// it cannot be remembered is no reason not to list.
func (a *app) visitsIn(dir string, rules *scoring.Rules) ([]archive.Entry, error) {
	cache, made := a.memoryOf(dir)
	data, _ := os.ReadFile(cache)
	before := archive.Decode(data, made)
	watched := a.progress("reading the visits", 0)
	entries, after, err := archive.List(dir, rules, before, a.now())
	watched.Done()
	if err != nil {
		return nil, fmt.Errorf("the folder %s cannot be read: %w", show.Safe(dir), err)
	}
	if data, err := after.Encode(made); err == nil && cache != "" && len(after.Read) > 0 {
		remember(cache, data)
	}
	return entries, nil
}

func remember(path string, data []byte) {
	if os.MkdirAll(filepath.Dir(path), 0o700) != nil {
		return
	}
	_ = wholefile.Replace(path, 0o600, func(w io.Writer) error { _, err := w.Write(data); return err })
}

// memoryOf is the file that remembers a folder, and what its entries are made
// with: this very program, and the user's own rules and taxa.
func (a *app) memoryOf(dir string) (path, made string) {
	cache, err := os.UserCacheDir()
	full, err2 := filepath.Abs(dir)
	if err != nil || err2 != nil {
		return "", ""
	}
	sum := sha256.Sum256([]byte(full))
	if exe, err := os.Executable(); err == nil {
		if info, err := os.Stat(exe); err == nil {
			made = fmt.Sprint(exe, info.Size(), info.ModTime().UnixNano())
		}
	}
	return filepath.Join(cache, "rillkey", "list-"+hex.EncodeToString(sum[:12])), made + printOf(a.taxaDir) + printOf(a.rulesDir)
}

// printOf tells two states of a folder of authored files apart.
func printOf(dir string) string {
	if dir == "" {
		return "|"
	}
	var files []string
	_ = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".toml") {
			data, _ := os.ReadFile(path)
			files = append(files, fmt.Sprintf("%s %x", path, sha256.Sum256(data)))
		}
		return nil
	})
	slices.Sort(files)
	return "|" + strings.Join(files, "\n")
}

package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// build is what is known of how the program was made.
type build struct {
	Version string            `json:"version"` // empty where it is not known
	Go      string            `json:"go"`
	System  string            `json:"system"`
	Regions map[string]string `json:"regions"` // versions of those built in, by id
}

// showVersion says which build of the program this is, and which versions of the
// regions are in it.
func showVersion(a *app) error {
	catalog, err := taxa.Embedded()
	if err != nil {
		return err
	}
	b := build{buildVersion(), runtime.Version(), runtime.GOOS + "/" + runtime.GOARCH, map[string]string{}}
	for _, r := range catalog.Regions() {
		b.Regions[r.ID] = r.Version
	}
	if a.json {
		return show.JSON(a.stdout, b)
	}
	said := b.Version
	if said == "" {
		said = wording.Text("of no known version")
	}
	if _, err := fmt.Fprintf(a.stdout, "rillkey %s (%s, %s)\n", said, b.Go, b.System); err != nil {
		return err
	}
	for _, r := range catalog.Regions() {
		if _, err := fmt.Fprintln(a.stdout, wording.Sprintf("region %s, version %s", r.ID, r.Version)); err != nil {
			return err
		}
	}
	return nil
}

// released is the commit that .ci/release made the program of.
var released string

// buildVersion is the version that the program was released as, or that Go noted in it;
// empty where there is none.
func buildVersion() string {
	if released != "" {
		return released
	}
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "(devel)" {
		return ""
	}
	return info.Main.Version
}

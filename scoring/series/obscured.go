package series

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"slices"

	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// ObscuredSites are the sites that visits obscure, folded as [plain.Fold] does,
// each with the first file that does. A place is obscured for good and under all
// its names, not for one visit.
type ObscuredSites map[string]string

// FindObscured reads which sites the files obscure. Files that cannot be read
// obscure nothing.
func FindObscured(files []string) ObscuredSites {
	out := ObscuredSites{}
	for _, file := range files {
		if !mentions(file, "obscured") {
			continue
		}
		v, err := visit.Read(file)
		if err != nil || !v.Obscured() {
			continue
		}
		for _, site := range v.Sites() {
			if name := plain.Fold(site); name != "" && out[name] == "" {
				out[name] = file
			}
		}
	}
	return out
}

// FileOf is a file that obscures the site of a name, however it is written, or "".
func (o ObscuredSites) FileOf(site string) string { return o[plain.Fold(site)] }

// FileFor is a file that obscures the site of a visit, or "".
func (o ObscuredSites) FileFor(v *visit.Visit) string {
	for _, site := range v.Sites() {
		if file := o.FileOf(site); file != "" {
			return file
		}
	}
	return ""
}

// ObscuredBeside reads which sites are obscured by the files or by visits that lie beside
// them: whoever names one file of a folder gives no place away that another keeps.
func ObscuredBeside(files []string) ObscuredSites {
	all := slices.Clone(files)
	seen := map[string]bool{}
	for _, file := range files {
		if dir := filepath.Dir(file); !seen[dir] {
			seen[dir] = true
			all = append(all, FilesIn(dir)...)
		}
	}
	slices.Sort(all)
	return FindObscured(slices.Compact(all))
}

// Obscure has the place of a visit count as obscured where another visit obscures its
// site, and reports whether it counts so only since then.
func (o ObscuredSites) Obscure(v *visit.Visit) bool {
	if v.Obscured() || o.FileFor(v) == "" {
		return false
	}
	v.Obscure()
	return true
}

// LastReference is the site that the newest of some visits to a site names to be compared
// with; empty where none names one. Files that cannot be read say nothing.
func LastReference(files []string, site string) (reference string) {
	newest := ""
	for _, file := range files {
		if !mentions(file, "reference") {
			continue
		}
		v, err := visit.Read(file)
		if err == nil && visit.SameSite(v.Header.Site, site) && v.Header.Date >= newest {
			newest, reference = v.Header.Date, v.Header.ComparesWith()
		}
	}
	return reference
}

// NamesReference tells that some of the files may name a site to be compared with.
func NamesReference(files []string) bool {
	return slices.ContainsFunc(files, func(file string) bool { return mentions(file, "reference") })
}

// mentions tells whether a file has a word in it, which is found a hundred times
// as fast as the file is read.
func mentions(file, word string) bool {
	f, err := authored.OpenFile(file, os.O_RDONLY)
	if err != nil {
		return false
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, visit.MaxFile))
	return err == nil && bytes.Contains(data, []byte(word))
}

package folder

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"rillkey/taxa/plain"
)

// Misnamed is a file or folder that belongs to no region by its name, and was most likely
// meant to.
type Misnamed struct {
	Name   string // as it is
	Should string // what it would have to be called, or the folder that its files belong in
}

// Misnamed are the files and folders of a region that the program would read under another
// name: with capitals, with .txt behind it, beside the folder that they belong in, or in
// one too many. Copies of what is there are not among them.
func (f *Folder) Misnamed() []Misnamed {
	if f.FS == nil {
		return nil
	}
	out := f.misnamedFiles()
	for _, e := range entries(f.FS, ".") {
		if should := f.folderMeant(e); should != "" {
			out = append(out, Misnamed{e.Name(), should})
		}
	}
	for _, dir := range []string{Taxa, Schemes, Protocols} {
		for _, e := range entries(f.FS, dir) {
			name := path.Join(dir, e.Name())
			switch should := path.Join(dir, plainName(e.Name())); {
			case e.IsDir() && holdsTOML(f.FS, name):
				out = append(out, Misnamed{name, dir})
			case !e.IsDir() && should != name && strings.HasSuffix(should, ".toml") && !f.Has(should) && !f.Has(name):
				out = append(out, Misnamed{name, should})
			}
		}
	}
	return out
}

// misnamedFiles are those that stand beside the folders.
func (f *Folder) misnamedFiles() (out []Misnamed) {
	for _, e := range entries(f.FS, ".") {
		if e.IsDir() {
			continue
		}
		should := plainName(e.Name())
		switch {
		case slices.Contains([]string{HeadFile, KeyFile, WordsFile}, should):
		case isLanguage(should):
			should = WordsFile
		case should == "taxa.toml" || should == "traits.toml":
			should = path.Join(Taxa, should)
		default:
			continue
		}
		if should != e.Name() && !f.Has(should) {
			out = append(out, Misnamed{e.Name(), should})
		}
	}
	return out
}

// folderMeant is the folder of a region that an entry was most likely meant to be; empty
// where it is that, or none.
func (f *Folder) folderMeant(e fs.DirEntry) string {
	for _, dir := range []string{Taxa, Schemes, Protocols} {
		name := strings.ToLower(e.Name())
		if e.IsDir() && e.Name() != dir && !f.Has(dir) && plain.Distance(name, dir) <= 1 && holdsTOML(f.FS, e.Name()) {
			return dir
		}
	}
	return ""
}

// isLanguage reports whether a file is named by two or three letters, as signs of
// languages are.
func isLanguage(file string) bool {
	name, is := strings.CutSuffix(file, ".toml")
	return is && (len(name) == 2 || len(name) == 3) && strings.Trim(name, "abcdefghijklmnopqrstuvwxyz") == ""
}

// plainName is a name in small letters, without what editors, downloads and slips of the
// hand make of it: .txt or .bak behind it, a number in brackets, an end that is nearly
// .toml.
func plainName(name string) string {
	name = strings.ToLower(name)
	for _, end := range []string{".txt", ".bak", ".old", ".orig", "~"} {
		name = strings.TrimSuffix(name, end)
	}
	end := path.Ext(name)
	bare := strings.TrimSuffix(name, end)
	if open := strings.LastIndex(bare, "("); open > 0 && numbered(bare[open:]) {
		bare = strings.TrimRight(bare[:open], " ")
	}
	if !slices.Contains(alsoKept, end) && plain.Distance(end, ".toml") <= 1 {
		end = ".toml"
	}
	return bare + end
}

// alsoKept are ends of a region's other files, which no slip makes of .toml.
var alsoKept = []string{".md", ".txt", ".svg", ".jpg", ".jpeg", ".png"}

// numbered reports whether what stands at the end of a name is a number in brackets, as
// behind what was downloaded twice.
func numbered(s string) bool {
	digits := strings.TrimSuffix(strings.TrimPrefix(s, "("), ")")
	return len(digits)+2 == len(s) && digits != "" && strings.Trim(digits, "0123456789") == ""
}

// holdsTOML reports whether a folder has files that look like a region's.
func holdsTOML(fsys fs.FS, dir string) bool {
	return slices.ContainsFunc(entries(fsys, dir), func(e fs.DirEntry) bool {
		return !e.IsDir() && strings.HasSuffix(plainName(e.Name()), ".toml")
	})
}

// entries are those of a folder, none where it cannot be read or holds too many.
func entries(fsys fs.FS, dir string) []fs.DirEntry {
	all, err := fs.ReadDir(fsys, dir)
	if err != nil || len(all) > maxEntries {
		return nil
	}
	return all
}

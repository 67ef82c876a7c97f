package main

import (
	"cmp"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/region"
	"rillkey/couplets"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// speaks has the program speak the language of the region in use, before anything is
// said. What is wrong with a region's words is told by 'rillkey region check' alone
// where that, or another command for regions, is asked.
func (a *app) speaks(cmd *cobra.Command, _ []string) error {
	if filepath.Base(a.regionName) == folder.HeadFile && isFile(a.regionName) {
		a.regionName = filepath.Dir(a.regionName) // a region is the folder of its head
	}
	a.regionName = meanRegion(a.console, a.regionName)
	err := a.speak()
	if cmd.Name() == cobra.ShellCompRequestCmd {
		speakOffers(cmd.Root())
	}
	if err != nil && cmd.Parent() != nil && cmd.Parent().Name() == "region" {
		return nil
	}
	return err
}

// speak has everything said in the language of the region's folder or file, else in the
// English of the region that is built in.
func (l *library) speak() error {
	words, err := l.words()
	if err != nil {
		words = nil
	}
	wording.Use(words)
	return err
}

// words are those that everything is said in, of the region's folder or file, else of
// one that is built in. They are nil, for plain English, where a folder cannot be read:
// whoever needs it says so.
func (l *library) words() (*wording.Translation, error) {
	f, err := l.folder()
	switch {
	case f == nil && l.regionName != "" && isFile(l.regionName):
		return wordsOfFile(l.regionName)
	case f == nil && l.regionName == "" && l.header.Region == "" && here(l) != "":
		own, err := folder.Open(here(l)) // animals or a key of one's own do not change the language
		if err != nil {
			return nil, nil
		}
		return region.Opened(own).Words()
	case f == nil:
		return region.BuiltInWords(l.builtInRegion()), nil
	case err != nil:
		return nil, nil
	}
	return f.Words()
}

// wordsOfFile are those of a region that is a file by itself.
func wordsOfFile(file string) (*wording.Translation, error) {
	dir, name := splitPath(file)
	head := region.ReadPreface(authored.DirFS(dir), name)
	words, err := language.WithoutRegion(head.Language, head.Setting())
	return words.Replacing(head.Instead), err
}

// builtInRegion is the id of the region that is built in whose words hold, as far as
// it is known before any catalog is read: that of --region, of the visit or of --key.
func (l *library) builtInRegion() string {
	file, ok := couplets.EmbeddedFile(l.keyFile)
	switch {
	case l.keyFile == kindsKey:
		file = couplets.DefaultName
	case !ok:
		file = ""
	}
	return cmp.Or(l.regionName, l.header.Region, strings.TrimSuffix(file, ".toml"))
}

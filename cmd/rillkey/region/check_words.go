//go:build !js

package region

import (
	"errors"
	"io/fs"
	"strings"

	"rillkey/taxa/folder"
	"rillkey/taxa/language"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// words finds what is wrong with the words of a region, and says how many of the
// program's sentences nobody has put into its language.
func (c *regionCheck) words() {
	words, err := c.folder.Words()
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		c.wrong(folder.WordsFile, err)
	}
	if err != nil {
		return
	}
	if c.folder.Has(folder.WordsFile) && c.folder.Preface.Language == "" && c.region != nil {
		c.warnAt("language", "bad-language", wording.Sprintf("%s says what is said here, and no line says in which language",
			folder.WordsFile), wording.Text(`add one, as RFC 5646 has it: language = "de"`))
	}
	if spoken := c.folder.Preface.Language; !isEnglish(spoken) {
		if n := len(language.Missing(words)); n > 0 {
			c.warnAt("language", "missing-sentences", missing(n, spoken),
				wording.Sprintf("'rillkey region words %s' lists them; %s says them", innerWord(c.folder.Shown), folder.WordsFile))
		}
	}
	if !c.folder.Preface.OnlyCautions {
		return
	}
	if n := len(language.OfStreams(words)); n > 0 {
		c.warnAt("only_these_cautions", "stream-sentences",
			wording.Sprintf("%d of the program's sentences still speak of animals, trays, nets, water or streams", n),
			wording.Sprintf("put other words in the place of those with [instead] in %s, or say a sentence anew with [say]; 'rillkey "+
				"region words --of-streams %s' lists them", folder.WordsFile, innerWord(c.folder.Shown)))
	}
}

// innerWord is a word of a command that stands between single quotes itself.
func innerWord(word string) string {
	if shown := plain.ShellWord(word); shown == word {
		return shown
	}
	return `"` + strings.NewReplacer(`"`, `\"`, "$", `\$`, "`", "\\`", `\`, `\\`).Replace(plain.Printable(word)) + `"`
}

func isEnglish(language string) bool {
	base, _, _ := strings.Cut(strings.ToLower(language), "-")
	return base == "" || base == "en"
}

// missing says how many sentences a language lacks.
func missing(n int, spoken string) string {
	return wording.Sprintf("%d of the program's %d sentences are said in English, for want of words in %s", n,
		len(language.Sentences()), plain.Quote(spoken))
}

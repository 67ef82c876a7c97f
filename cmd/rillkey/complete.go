package main

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/region"
	"rillkey/cmd/rillkey/units"
	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// offering completes a word from a list that is made when the shell asks; files are
// offered too where they may stand: by the shell where no word fits, else here, so that
// a file or folder is found beside the words that begin like it.
func offering(files bool, words func() []string) cobra.CompletionFunc {
	directive := cobra.ShellCompDirectiveNoFileComp
	if files {
		directive = cobra.ShellCompDirectiveDefault
	}
	return func(_ *cobra.Command, _ []string, typed string) (out []string, _ cobra.ShellCompDirective) {
		for _, w := range words() {
			if strings.HasPrefix(w, typed) {
				out = append(out, w)
			}
		}
		if files && len(out) > 0 {
			out = append(out, besideWords(typed)...)
		}
		return out, directive
	}
}

// besideWords are the keys and regions in the present folder that begin as typed.
func besideWords(typed string) (out []string) {
	entries, err := os.ReadDir(".")
	if err != nil {
		return nil
	}
	for _, e := range entries {
		name := e.Name()
		if ext := filepath.Ext(name); !strings.HasPrefix(name, typed) || name[0] == '.' || strings.HasSuffix(name, visit.Suffix) {
			continue
		} else if e.IsDir() || ext == ".toml" || ext == ".zip" {
			out = append(out, name)
		}
	}
	return out
}

// whileTaken completes what a command may still take: nothing more where it has what it takes.
func whileTaken(how cobra.CompletionFunc) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if cmd.Args != nil && cmd.Args(cmd, append(slices.Clone(args), typed)) != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return how(cmd, args, typed)
	}
}

// onceNamed completes a name, which a number may stand before; behind it nothing.
func onceNamed(how cobra.CompletionFunc) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if slices.ContainsFunc(args, func(arg string) bool { return !units.IsNumber(arg) }) {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return how(cmd, args, typed)
	}
}

// ofSeveral completes the last of several words with commas between them, of those that
// are not there yet.
func ofSeveral(words func() []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, _ []string, typed string) (out []string, _ cobra.ShellCompDirective) {
		before := typed[:strings.LastIndexByte(typed, ',')+1]
		there := strings.Split(before, ",")
		for _, w := range words() {
			if strings.HasPrefix(before+w, typed) && !slices.Contains(there, w) {
				out = append(out, before+w)
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
}

// offeringNames offers the names of taxa, with a capital where one was typed: any way of
// writing a name is understood.
func offeringNames(words func() []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, _ []string, typed string) (out []string, _ cobra.ShellCompDirective) {
		for _, w := range words() {
			if r, _ := utf8.DecodeRuneInString(typed); unicode.IsUpper(r) {
				w = plain.Capital(w)
			}
			if strings.HasPrefix(w, typed) {
				out = append(out, w)
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
}

// aShellAsks reports whether a shell asks what may be typed next. Only then are the words
// that complete others told to the library: that took half the time which a command needs
// to begin.
func aShellAsks(args []string) bool {
	return len(args) > 0 && (args[0] == cobra.ShellCompRequestCmd || args[0] == cobra.ShellCompNoDescRequestCmd)
}

// completeFlags says what may follow flags, wherever a command has them.
func completeFlags(a *app, cmd *cobra.Command) {
	for name, how := range map[string]cobra.CompletionFunc{
		"region": offering(true, region.BuiltInIDs), "key": offering(true, couplets.EmbeddedNames),
		"protocol": offering(false, func() []string { return a.protocolIDs() }),
		"sample":   offering(false, func() []string { return a.sampleLabels() }),
		"observe":  offeringStates(func() []string { return a.observations() }),
		"people":   ofSeveral(func() []string { return a.peopleHere() }),
		"who":      offering(false, func() []string { return a.peopleHere() }),
		"explain":  offering(false, ruleNames),
		"check":    offeringNames(func() []string { return a.taxonNames() }),
		"against":  offeringNames(func() []string { return a.taxonNames() }),
		"taxon":    offeringNames(func() []string { return a.taxonNames() }),
		"answers":  a.offeringAnswers,
	} {
		if f := cmd.Flag(name); f != nil && f.Value.Type() != "bool" {
			_ = cmd.RegisterFlagCompletionFunc(name, how) // fails only if registered twice
		}
	}
	for _, sub := range cmd.Commands() {
		completeFlags(a, sub)
	}
}

// completeWords says what may be typed beside flags: names of animals, couplets of the
// key in use, and regions.
func completeWords(a *app, root *cobra.Command) {
	for path, how := range map[string]cobra.CompletionFunc{
		"taxa":             onceNamed(offeringNames(func() []string { return a.taxonNames() })),
		"visit add":        onceNamed(offeringNames(func() []string { return a.taxonNames() })),
		"region show":      whileTaken(offering(true, region.BuiltInIDs)),
		"region export":    whileTaken(offering(false, region.BuiltInIDs)),
		"couplets show":    whileTaken(offering(true, couplets.EmbeddedNames)),
		"couplets check":   offering(true, couplets.EmbeddedNames),
		"couplets compare": whileTaken(offering(true, couplets.EmbeddedNames)),
		"couplets stats":   whileTaken(offering(true, couplets.EmbeddedNames)),
		"couplets trial":   whileTaken(offering(true, couplets.EmbeddedNames)),
	} {
		if cmd, _, err := root.Find(strings.Fields(path)); err == nil && cmd != root {
			cmd.ValidArgsFunction = how
		}
	}
}

func ruleNames() (out []string) {
	for _, page := range rules.Pages() {
		out = append(out, page.Rule)
	}
	return out
}

// peopleHere are the people of the visit at hand.
func (a *app) peopleHere() []string {
	v, err := a.readVisit()
	if err != nil {
		return nil
	}
	return v.Header.People
}

// offeringAnswers completes the last of several answers: a lead of the key in use.
func (a *app) offeringAnswers(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
	before := typed[:strings.LastIndexByte(typed, ',')+1]
	var out []string
	for _, lead := range a.leads() {
		if strings.HasPrefix(before+lead, typed) {
			out = append(out, before+lead)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

// offeringStates completes a trait with a state of it, or with several: words are all of
// both, as tails=2.
func offeringStates(words func() []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		trait, states, chosen := strings.Cut(typed, "=")
		if !chosen || !strings.Contains(states, ",") {
			return offering(false, words)(cmd, args, typed)
		}
		out, how := ofSeveral(func() (out []string) {
			for _, seen := range words() {
				if state, its := strings.CutPrefix(seen, trait+"="); its {
					out = append(out, state)
				}
			}
			return out
		})(cmd, args, states)
		for i := range out {
			out[i] = trait + "=" + out[i]
		}
		return out, how
	}
}

// bashAlone stands before the completion of bash: what that uses of a package of
// completions, for those who have none. Bash parts words at = and : too; here they are
// put together as they were typed.
const bashAlone = `if ! declare -F _get_comp_words_by_ref >/dev/null && ! declare -F _init_completion >/dev/null; then
    _get_comp_words_by_ref()
    {
        local rest=$COMP_LINE i last=-1
        words=()
        for ((i = 0; i < ${#COMP_WORDS[@]}; i++)); do
            if ((last < 0)) || [[ $rest == [[:space:]]* ]]; then
                ((++last))
                words[last]=''
            fi
            rest=${rest#"${rest%%[![:space:]]*}"}
            words[last]+=${COMP_WORDS[i]}
            rest=${rest#"${COMP_WORDS[i]}"}
            if ((i == COMP_CWORD)); then
                cword=$last
            fi
        done
        cur=${words[cword]}
        prev=${words[cword > 0 ? cword - 1 : 0]}
    }
fi

`

// completionHelp is what the help of each shell's completion says.
var completionHelp = map[string]string{
	"bash": wording.MarkLong(`Writes what has bash complete commands, animals, people and the like. For this session:

  source <(rillkey completion bash)

For all of them put this line into ~/.bashrc.`),
	"zsh": wording.MarkLong(`Writes what has zsh complete commands, animals, people and the like. For this session:

  autoload -U compinit; compinit
  source <(rillkey completion zsh)

For all of them put these lines into ~/.zshrc.`),
	"fish": wording.MarkLong(`Writes what has fish complete commands, animals, people and the like. For this session:

  rillkey completion fish | source

For all of them:

  rillkey completion fish > ~/.config/fish/completions/rillkey.fish`),
	"powershell": wording.MarkLong(`Writes what has PowerShell complete commands, animals, people and the like:

  rillkey completion powershell | Out-String | Invoke-Expression

For all sessions put this line into your profile.`),
}

// completionAlone makes the completion of bash work without a package of its own, and
// has its help in words of this program.
func completionAlone(a *app, root *cobra.Command) {
	short := wording.Mark("Have your shell complete what you type")
	if !a.meant("completion") {
		root.AddCommand(&cobra.Command{Use: "completion", Short: short, RunE: group}) // in place of the library's
		return
	}
	root.InitDefaultCompletionCmd()
	bash, _, err := root.Find([]string{"completion", "bash"})
	if err != nil || bash.RunE == nil {
		return
	}
	all := bash.Parent()
	all.Short, all.Long = short, ""
	for _, shell := range all.Commands() {
		shell.Short = wording.Mark("For this shell")
		shell.Long = completionHelp[shell.Name()]
		if f := shell.Flag("no-descriptions"); f != nil {
			f.Usage = wording.Mark("words alone, without what they mean")
		}
	}
	script := bash.RunE
	bash.RunE = func(cmd *cobra.Command, args []string) error {
		if _, err := io.WriteString(cmd.OutOrStdout(), bashAlone); err != nil {
			return err
		}
		return script(cmd, args)
	}
}

// leads are the leads of the key in use, such as "4b".
func (a *app) leads() (out []string) {
	k, err := a.key()
	if err != nil {
		return nil
	}
	for _, c := range k.Couplets() {
		for _, l := range c.Leads {
			out = append(out, c.ID+l.Letter)
		}
	}
	return out
}

// What cannot be read is not offered: the shell has no place to say why.

func (a *app) protocolIDs() (out []string) {
	_, rules, err := a.catalogAndRules()
	if err != nil {
		return nil
	}
	for _, p := range rules.Protocols() {
		out = append(out, p.ID)
	}
	return out
}

func (a *app) sampleLabels() (out []string) {
	v, err := a.readVisit()
	if err != nil {
		return nil
	}
	for _, s := range v.Tally().Samples {
		out = append(out, s.Label)
	}
	return out
}

// observations are all traits with their states, as --observe takes them.
func (a *app) observations() (out []string) {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return nil
	}
	for _, t := range catalog.Vocabulary().Traits() {
		for _, s := range t.States {
			out = append(out, t.ID+"="+s.ID)
		}
	}
	return out
}

// taxonNames are the names of the animals, sorted.
func (a *app) taxonNames() (out []string) {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return nil
	}
	for _, t := range catalog.Taxa() {
		out = append(out, t.ID)
	}
	slices.Sort(out)
	return out
}

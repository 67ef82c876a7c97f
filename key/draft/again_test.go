package draft_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key/draft"
	"rillkey/taxa/authored"
)

// randomSheet is a table of so many animals; those of the same seed begin alike.
func randomSheet(seed uint64, animals int, change bool) string {
	r := rand.New(rand.NewPCG(seed, 4))
	var b strings.Builder
	b.WriteString("animal,legs,tails,gills,case,colour,shell")
	for i := range animals {
		fmt.Fprintf(&b, "\nanimal %d", i)
		for j := range 6 {
			state := string(rune('a' + r.IntN(2+j%3)))
			if r.IntN(9) == 0 {
				state += "|" + string(rune('a'+2+j%3))
			}
			if change && i == 3 && j == 2 {
				state = "new"
			}
			b.WriteString("," + state)
		}
	}
	return b.String() + "\n"
}

func read(t *testing.T, text string) *couplets.File {
	t.Helper()
	var report authored.Report
	f, err := couplets.Read(fstest.MapFS{"k": {Data: []byte(text)}}, "k", "k", &report)
	if err != nil || len(report.All()) > 0 {
		t.Fatal(err, report.Findings(), "\n", text)
	}
	return f
}

var leadText = regexp.MustCompile(`(?m)^text   = .*`)

// A key in somebody's own words and with numbers of their own comes back to the last
// byte where the sheet is as it was; where it has changed, the result is sound and holds
// all that they wrote, and drafting once more changes nothing.
func TestWhatWasWrittenIsKept(t *testing.T) {
	seeds := uint64(12)
	if testing.Short() {
		seeds = 2
	}
	had, stay := 0, 0 // couplets
	for seed := range seeds {
		sheet := sheetOf(t, randomSheet(seed, 10, false))
		head := draft.Head{ID: "k", Title: "K", Source: "invented", Asks: sheet.Asks, Ends: sheet.Wording()}
		drafted := func(s *draft.Spreadsheet) *draft.Draft {
			table, err := s.Table(model)
			if err != nil {
				t.Fatal(err)
			}
			d, err := draft.NewQuick(table, model.Terms)
			if err != nil {
				t.Fatal(err)
			}
			return d
		}
		n := 0
		text := leadText.ReplaceAllStringFunc(string(drafted(sheet).Text(head)), func(string) string {
			n++
			return fmt.Sprintf("# Note %d.\ntext   = \"Own words %d.\"", n, n)
		})
		for i := len(read(t, text).Couplets); i > 0; i-- {
			text = strings.NewReplacer(fmt.Sprintf("[couplet.%d]", i), fmt.Sprintf("[couplet.%d]", 3*i), fmt.Sprintf("[couplet.%d.", i),
				fmt.Sprintf("[couplet.%d.", 3*i), fmt.Sprintf(" = \"%d\"\n", i), fmt.Sprintf(" = \"%d\"\n", 3*i)).Replace(text)
		}
		same, kept, err := drafted(sheet).Again(head, read(t, text), text)
		if err != nil || string(same) != text || len(kept.New)+len(kept.Gone)+len(kept.Reread) > 0 {
			t.Fatalf("seed %d: %v, %+v\n%s\nand before\n%s", seed, err, kept, same, text)
		}
		for _, animals := range []int{9, 12} {
			now := sheetOf(t, randomSheet(seed, animals, true))
			again, kept, err := drafted(now).Again(head, read(t, text), text)
			if err != nil {
				t.Fatal(err)
			}
			for i := 1; i <= n; i++ {
				if !strings.Contains(string(again), fmt.Sprintf("\"Own words %d.\"", i)) || !strings.Contains(string(again),
					fmt.Sprintf("# Note %d.", i)) {
					t.Fatalf("seed %d: what was written is lost: %d of\n%s", seed, i, again)
				}
			}
			if _, err := couplets.LoadText(again, "again", catalogOf(t, now)); err != nil {
				t.Fatalf("seed %d: %v\n%s", seed, err, again)
			}
			had, stay = had+len(read(t, text).Couplets), stay+kept.Couplets
			once, _, err := drafted(now).Again(head, read(t, string(again)), string(again))
			if err != nil || string(once) != string(again) {
				t.Fatalf("seed %d: drafted once more: %v\n%s\nbefore\n%s", seed, err, once, again)
			}
		}
	}
	if t.Logf("%d of %d couplets stay", stay, had); stay*3 < had {
		t.Errorf("only %d of %d couplets stay", stay, had)
	}
}

// Where a sheet gains a state, the couplet in somebody's words gains a lead.
func TestACoupletInSomebodysWordsGainsALead(t *testing.T) {
	head := draft.Head{ID: "k", Title: "K", Source: "invented"}
	drafted := func(sheet string) *draft.Draft { return draftFrom(t, sheetOf(t, sheet)) }
	const sheet = "animal,tails\nmayfly,3\nstonefly,2\nbeetle,none\n"
	text := strings.NewReplacer("Tails: 3.", "Three tails as thin as hairs.", "Tails: none.", "No tail at all.").Replace(
		string(drafted(sheet).Text(head)))
	again, kept, err := drafted(sheet+"rat-tailed maggot,1\n").Again(head, read(t, text), text)
	if err != nil {
		t.Fatal(err)
	}
	leads := read(t, string(again)).Couplets[0].Leads
	if len(leads) != 4 || leads[0].Text != "Three tails as thin as hairs." || leads[2].Text != "No tail at all." ||
		leads[3].Text != "Tails: 1." || kept.Couplets != 1 || len(kept.Reread) > 0 {
		t.Errorf("%+v\n%s", kept, again)
	}
}

// What somebody wrote in one couplet is said in no other of the same trait: it was written
// for the animals that come there.
func TestWordsStayInTheCoupletTheyWereWrittenIn(t *testing.T) {
	head := draft.Head{ID: "k", Title: "K", Source: "invented"}
	drafted := func(sheet string) *draft.Draft { return draftFrom(t, sheetOf(t, sheet)) }
	const before = "animal,legs,tails\nmayfly,6,3\nstonefly,6,2\nworm,0,2\n"
	const after = before + "leech,0,3\n"
	text := string(drafted(before).Text(head))
	const words = "Three tails as thin as hairs."
	own := strings.Replace(text, "Tails: 3.", words, 1)
	again, _, err := drafted(after).Again(head, read(t, own), own)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(own, words) || strings.Count(string(again), words) != 1 || !strings.Contains(string(again), "Tails: 3.") {
		t.Errorf("%q stands there %d times:\n%s\nbefore\n%s", words, strings.Count(string(again), words), again, own)
	}
}

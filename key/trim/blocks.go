package trim

import (
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// block is a table of the file with a header of its own, from the comments that
// stand right above it to the next one.
type block struct {
	start, header, end int
	path               []string // of the header
}

var (
	headerLine = pattern.New(`^[ \t]*\[[^\[\]]+\][ \t]*(#.*)?$`)
	bareName   = pattern.New(`[a-z0-9_-]+`)
)

// blocks plans all edits: blocks that go, numbers that change, and entries of
// commonness and lens sets that name what is gone.
func (t *trimmer) blocks() error {
	all := t.parts()
	for i := range t.sound.Couplets {
		c := &t.sound.Couplets[i]
		stays := t.number[c.ID] != ""
		if err := t.couplet(c, stays, all); err != nil {
			return err
		}
	}
	t.start()
	t.commonness()
	return t.lensSets(all)
}

// parts are the blocks of the file. A line within a text of several lines could
// look like a header, so a header counts only where a table of the key is known
// to begin, which [trimmer.own] compares.
func (t *trimmer) parts() []block {
	var out []block
	for i, from := range t.lines {
		end := len(t.text)
		if i+1 < len(t.lines) {
			end = t.lines[i+1] - 1
		}
		line := strings.TrimSuffix(t.text[from:end], "\r")
		if headerLine().MatchString(line) {
			name, _, _ := strings.Cut(line, "]")
			out = append(out, block{start: t.lineAbove(i), header: from, path: bareName().FindAllString(name, -1)})
		}
	}
	for i := range out {
		out[i].end = len(t.text)
		if i+1 < len(out) {
			out[i].end = out[i+1].start
			out[i].end = t.keepApart(out[i].header, out[i].end)
		}
	}
	return out
}

// lineAbove is where the comments begin that stand right above a line.
func (t *trimmer) lineAbove(line int) int {
	for line > 0 && strings.HasPrefix(strings.TrimLeft(t.text[t.lines[line-1]:t.lines[line]], " \t"), "#") {
		line--
	}
	return t.lines[line]
}

// keepApart leaves comments that stand by themselves, after a blank line, out of
// the block before them.
func (t *trimmer) keepApart(header, end int) int {
	if i := strings.Index(t.text[header:end], "\n\n#"); i >= 0 {
		return header + i + 2
	}
	if i := strings.Index(t.text[header:end], "\r\n\r\n#"); i >= 0 {
		return header + i + 4
	}
	return end
}

// own is the block of a table that begins at p, and whether it has one.
func (t *trimmer) own(p authored.Pos, path string, all []block) (block, bool) {
	at := t.offset(p)
	for _, b := range all {
		if b.header <= at && strings.TrimLeft(t.text[b.header:at], " \t") == "" && strings.Join(b.path, ".") == path {
			return b, true
		}
	}
	return block{}, false
}

// couplet cuts a couplet, or gives it its new number and its leads their goals.
func (t *trimmer) couplet(c *couplets.Couplet, stays bool, all []block) error {
	path := "couplet." + c.ID
	b, ok := t.own(c.Pos, path, all)
	if !ok && !t.headless(c, all) {
		return unusual(c.Pos, "couplet "+c.ID)
	}
	if ok {
		t.header(b, c.ID, stays)
	}
	for j := range c.Leads {
		l := &c.Leads[j]
		lb, ok := t.own(l.Pos, path+"."+l.Letter, all)
		switch {
		case ok:
			t.header(lb, c.ID, stays)
		case !stays:
			continue // it goes with its couplet
		}
		if stays {
			if err := t.lead(l, lb, ok); err != nil {
				return err
			}
		}
	}
	if stays {
		t.letters(c, all)
	}
	return nil
}

// headless reports whether a couplet has no header of its own because all that
// it says stands under headers of its leads.
func (t *trimmer) headless(c *couplets.Couplet, all []block) bool {
	_, ok := t.own(c.Leads[0].Pos, "couplet."+c.ID+"."+c.Leads[0].Letter, all)
	return ok && c.Pos == c.Leads[0].Pos
}

func unusual(p authored.Pos, what string) error {
	return wording.Errorf("%s: %s is laid out in a way that cannot be cut safely; give it a header [couplet.…] of its own", p, what)
}

// header cuts a block, or renumbers its header.
func (t *trimmer) header(b block, id string, stays bool) {
	if !stays {
		t.cut(b.start, b.end)
		return
	}
	at := b.header + strings.Index(t.text[b.header:], "couplet") + len("couplet")
	at += strings.Index(t.text[at:], id)
	t.replace(at, at+len(id), t.number[id])
}

// lead cuts a lead to what is gone, or says where it goes now.
func (t *trimmer) lead(l *couplets.Lead, b block, own bool) error {
	g := t.goalOf(l)
	if g == (goal{}) {
		if own {
			t.cut(b.start, b.end)
			return nil
		}
		from := t.offset(l.Pos)
		to := strings.IndexByte(t.text[from:], '\n')
		if line := t.text[from : from+max(0, to)]; to < 0 || strings.Count(line, "{") != strings.Count(line, "}") ||
			strings.TrimLeft(line[:1], "abcdef") != "" {
			return unusual(l.Pos, "the lead")
		}
		t.cut(from, from+to+1)
		return nil
	}
	if l.Next == "" {
		for i, id := range slices.Backward(l.Taxa) {
			if !t.keep(id) {
				t.cutEntry(l.TaxaPos[i], textEntry())
			}
		}
		return nil
	}
	key, value := t.offset(l.TargetKeyPos), t.offset(l.TargetPos)
	end := value + len(quoted(t.text[value:]))
	if end == value {
		return unusual(l.TargetPos, wording.Text("the lead's goal"))
	}
	if g.couplet != "" {
		t.replace(value, end, `"`+t.number[g.couplet]+`"`)
		return nil
	}
	if !strings.HasPrefix(t.text[key:], "to") {
		return unusual(l.TargetPos, wording.Text("the lead's goal"))
	}
	// "to     = " makes room for "taxon  = " where blanks were set to align.
	word, blanks := "taxon", len(t.text[key+2:value])-len(strings.TrimLeft(t.text[key+2:value], " "))
	t.replace(key, key+2+min(3, max(0, blanks-1)), word)
	goal := `"` + strings.ReplaceAll(g.end, ",", `", "`) + `"`
	if strings.Contains(g.end, ",") {
		goal = "[" + goal + "]"
	}
	t.replace(value, end, goal)
	return nil
}

// quoted is the plain quoted text that s begins with, or nothing.
func quoted(s string) string {
	if len(s) < 2 || s[0] != '"' && s[0] != '\'' {
		return ""
	}
	if i := strings.IndexByte(s[1:], s[0]); i > 0 {
		return s[:i+2]
	}
	return ""
}

// letters closes gaps in the letters of the leads that stay.
func (t *trimmer) letters(c *couplets.Couplet, all []block) {
	n := 0
	for j := range c.Leads {
		l := &c.Leads[j]
		if t.goalOf(l) == (goal{}) {
			continue
		}
		letter := couplets.Letters[n : n+1]
		n++
		if letter == l.Letter {
			continue
		}
		at := t.offset(l.Pos)
		if b, ok := t.own(l.Pos, "couplet."+c.ID+"."+l.Letter, all); ok {
			at = b.header + strings.IndexByte(t.text[b.header:], ']')
			at = b.header + strings.LastIndex(t.text[b.header:at], l.Letter)
		}
		t.replace(at, at+1, letter)
	}
}

// start names the first couplet by its new number.
func (t *trimmer) start() {
	at := t.offset(t.sound.StartPos)
	number := t.number[t.goal[t.sound.Start].couplet]
	if q := quoted(t.text[at:]); q != "" && q[1:len(q)-1] == t.sound.Start {
		t.replace(at, at+len(q), `"`+number+`"`)
	} else if number != "1" { // the first couplet of the file is not where the walk begins
		if i := strings.IndexByte(t.text[at:], '\n'); i >= 0 && strings.HasPrefix(t.text[at:], "[key]") {
			t.replace(at+i+1, at+i+1, "start = \""+number+"\"\n")
		}
	}
}

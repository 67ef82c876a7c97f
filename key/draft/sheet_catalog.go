package draft

import (
	"bytes"
	"fmt"
	"path"

	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Table is the sheet as a table to draft from. Traits of one state are left out.
func (s *Spreadsheet) Table(model Costs) (*TraitTable, error) {
	rows := make([]TableRow, len(s.IDs))
	for i, id := range s.IDs {
		rows[i] = TableRow{ID: id, Weight: s.weights[i]}
	}
	var traits []TableColumn
	var columns []int
	for j, trait := range s.Traits {
		if len(trait.States) > 1 {
			traits, columns = append(traits, model.trait(trait)), append(columns, j)
		}
	}
	t, err := NewTable(rows, traits)
	if err != nil {
		return nil, err
	}
	for i := range rows {
		for j, column := range columns {
			states := s.cells[i*len(s.Traits)+column]
			shares := make([]float64, len(states))
			for k := range shares {
				shares[k] = 1 / float64(len(states))
			}
			t.Set(i, j, states, shares)
		}
	}
	return t, nil
}

// catalogPart is the most bytes of one file of a catalog: what a reader holds at
// once while it reads it.
const catalogPart = 4 << 20

// Catalog is the sheet as the files of a catalog, its traits and its taxa, for a
// drafted key to be checked and used with: traits.toml, taxa.toml and, for a large
// sheet, taxa-2.toml and so on.
func (s *Spreadsheet) Catalog() map[string][]byte {
	files := map[string][]byte{"traits.toml": s.traitsText()}
	var b bytes.Buffer
	part := 1
	s.groupsText(&b)
	for i := range s.IDs {
		s.taxonText(&b, i)
		if b.Len() >= catalogPart || i == len(s.IDs)-1 {
			files[partName(part)] = bytes.Clone(b.Bytes())
			b.Reset()
			part++
		}
	}
	return files
}

// leftPart is how the later files of a catalog are called.
const leftPart = "taxa-[0-9]*.toml"

// CatalogOver is [Spreadsheet.Catalog] for a folder that holds files already: what an earlier
// draft of a larger sheet left there is emptied, so that its animals do not stay.
func (s *Spreadsheet) CatalogOver(there []string) map[string][]byte {
	files := s.Catalog()
	for _, name := range there {
		if left, _ := path.Match(leftPart, name); left && files[name] == nil { // the pattern is sound
			files[name] = []byte("# " + wording.Text("All animals of the spreadsheet are in the other files.") + "\n")
		}
	}
	return files
}

// EditedByHand reports whether people may have written into the files of a catalog: one in
// several parts is too large for that.
func EditedByHand(files map[string][]byte) bool { return len(files) == 2 }

func partName(n int) string {
	if n == 1 {
		return "taxa.toml"
	}
	return fmt.Sprintf("taxa-%d.toml", n)
}

func (s *Spreadsheet) traitsText() []byte {
	var t bytes.Buffer
	for _, trait := range s.Traits {
		if len(trait.States) < 2 {
			continue
		}
		fmt.Fprintf(&t, "[trait.%s]\nquestion = %s\nlook     = %s\nmisread  = %g\nsource   = %s\n", trait.ID,
			quote(trait.Question), quote(string(trait.Look)), trait.Misread, quote(trait.Source))
		for _, state := range trait.States {
			fmt.Fprintf(&t, "[trait.%s.state.%s]\nlabel = %s\n", trait.ID, state.ID, quote(state.Label))
		}
		t.WriteByte('\n')
	}
	return t.Bytes()
}

func (s *Spreadsheet) taxonText(b *bytes.Buffer, i int) {
	id := s.IDs[i]
	s.taxonHead(b, i)
	fmt.Fprintf(b, "[taxon.%s.traits]\n", id)
	for j, trait := range s.Traits {
		mask := uint64(0)
		for _, k := range s.cells[i*len(s.Traits)+j] {
			mask |= 1 << k
		}
		if mask != 0 && len(trait.States) > 1 {
			b.WriteString(trait.ID)
			b.WriteString(" = ")
			b.WriteString(stateList(trait, mask))
			b.WriteByte('\n')
		}
	}
	b.WriteByte('\n')
}

// Commonness is the column "commonness" by taxon, nil without one.
func (s *Spreadsheet) Commonness() map[string]float64 {
	if !s.common {
		return nil
	}
	out := map[string]float64{}
	for i, id := range s.IDs {
		out[id] = s.weights[i]
	}
	return out
}

// Wording is what leads say that end in a taxon, by the taxa of which the sheet says
// it.
func (s *Spreadsheet) Wording() map[string]string {
	out := map[string]string{}
	for i, a := range s.details {
		if a.wording != "" {
			out[s.IDs[i]] = a.wording
		}
	}
	return out
}

// EvenReadings spreads a trait's misreads evenly over its other states: nothing
// is known of what is mistaken for what.
func EvenReadings(t *taxa.Trait) [][]float64 {
	n := len(t.States)
	out := make([][]float64, n)
	for s := range out {
		out[s] = make([]float64, n)
		for read := range out[s] {
			out[s][read] = t.Misread / float64(max(1, n-1))
		}
		out[s][s] = 1 - t.Misread
	}
	return out
}

package draft

import (
	"math/bits"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// maxStates is the most states that a trait may have.
const maxStates = 64

// TableRow is one row of a table.
type TableRow struct {
	ID     string
	Weight float64 // how common it is beside the others, in any unit
}

// RowsOf are the rows for the ends of a key that are met in a region, in the key's order, all
// of them without a region; as common as the key says, alike where it does not.
func RowsOf(s *couplets.Sound, region *taxa.Region, catalog *taxa.Catalog) (rows []TableRow) {
	weights := s.Weights()
	for _, t := range s.Ends {
		if region != nil && !region.Holds(t.ID, catalog) {
			continue
		}
		row := TableRow{ID: t.ID, Weight: 1}
		if weights != nil {
			row.Weight = weights[t.ID]
		}
		rows = append(rows, row)
	}
	return rows
}

// TableColumn is one column of a table.
type TableColumn struct {
	*taxa.Trait
	Effort float64 // of looking
	// Readings gives, for every true state and every state, the chance that the
	// one is read as the other.
	Readings [][]float64
}

// TraitTable is what taxa show of traits.
type TraitTable struct {
	Taxa   []TableRow
	Traits []TableColumn

	first  []int    // the first bit of each trait in a row
	stride int      // words of a row
	pure   []uint64 // rows of bits: the states of cells that do not vary
	varied [][]cell // by taxon: its cells that vary or are unknown, by trait
}

// cell is what a taxon shows of a trait where that is more than one state.
type cell struct {
	trait   int
	states  uint64
	shares  []float64 // of each state, summing to 1
	unknown bool      // any state, because nothing is stated
}

// NewTable is a table without a stated cell.
func NewTable(rows []TableRow, traits []TableColumn) (*TraitTable, error) {
	t := &TraitTable{Taxa: rows, Traits: traits, first: make([]int, len(traits)), varied: make([][]cell, len(rows))}
	n := 0
	for j, trait := range traits {
		if len(trait.States) > maxStates {
			return nil, wording.Errorf("the trait %q has %d states; a drafted key can part at most %d", trait.ID, len(trait.States),
				maxStates)
		}
		t.first[j] = n
		n += len(trait.States)
	}
	t.stride = (n + 63) / 64
	t.pure = make([]uint64, t.stride*len(rows))
	return t, nil
}

// Set states the cell of a taxon and a trait: its states by their places, with
// their shares; none says that it is unknown. Each cell is set once, traits of
// one taxon in rising order.
func (t *TraitTable) Set(taxon, trait int, states []int, shares []float64) {
	if len(states) == 1 {
		bit := t.first[trait] + states[0]
		t.pure[taxon*t.stride+bit/64] |= 1 << (bit % 64)
		return
	}
	n := len(t.Traits[trait].States)
	c := cell{trait: trait, shares: make([]float64, n), unknown: len(states) == 0}
	for i, s := range states {
		c.states |= 1 << s
		c.shares[s] = shares[i]
	}
	if c.unknown {
		c.states = ^uint64(0) >> (64 - n)
		for s := range c.shares {
			c.shares[s] = 1 / float64(n)
		}
	}
	t.varied[taxon] = append(t.varied[taxon], c)
}

// single is the state of a cell that does not vary, as a bit; 0 for others.
func (t *TraitTable) single(taxon, trait int) uint64 {
	row := t.pure[taxon*t.stride : (taxon+1)*t.stride]
	bit, n := t.first[trait], len(t.Traits[trait].States)
	word := row[bit/64] >> (bit % 64)
	if rest := 64 - bit%64; rest < n {
		word |= row[bit/64+1] << rest
	}
	return word & (^uint64(0) >> (64 - n))
}

// stated is the states that a taxon is stated to show; 0 when that is unknown.
func (t *TraitTable) stated(taxon, trait int) uint64 {
	if s := t.single(taxon, trait); s != 0 {
		return s
	}
	for _, c := range t.varied[taxon] {
		if c.trait == trait && !c.unknown {
			return c.states
		}
	}
	return 0
}

// apart reports whether some trait tells two taxa apart for certain.
func (t *TraitTable) apart(a, b int) bool {
	for j := range t.Traits {
		x, y := t.stated(a, j), t.stated(b, j)
		if x != 0 && y != 0 && x&y == 0 {
			return true
		}
	}
	return false
}

// FromCatalog is the table of some taxa of a catalog, in all traits of which at
// least two of them state something different. States that open says no to are
// left out, as where an earlier question has ruled them out; a nil open allows
// all.
func FromCatalog(catalog *taxa.Catalog, rows []TableRow, model Costs, open func(trait, state string) bool) (*TraitTable, error) {
	var traits []TableColumn
	for _, trait := range catalog.Vocabulary().Asked() {
		if differs(catalog, rows, trait) {
			traits = append(traits, model.trait(trait))
		}
	}
	t, err := NewTable(rows, traits)
	if err != nil {
		return nil, err
	}
	for i, row := range rows {
		for j, trait := range traits {
			var states []int
			var shares []float64
			sum := 0.0
			for _, w := range catalog.Taxon(row.ID).States(trait.ID) {
				if open == nil || open(trait.ID, w.State) {
					states, shares = append(states, trait.State(w.State)), append(shares, w.Share)
					sum += w.Share
				}
			}
			for k := range shares {
				shares[k] /= sum
			}
			t.Set(i, j, states, shares)
		}
	}
	return t, nil
}

func differs(catalog *taxa.Catalog, rows []TableRow, trait *taxa.Trait) bool {
	seen := uint64(0)
	for _, row := range rows {
		for _, w := range catalog.Taxon(row.ID).States(trait.ID) {
			seen |= 1 << (trait.State(w.State) % maxStates)
		}
	}
	return bits.OnesCount64(seen) > 1
}

// Costs is what looking, reading and a wrong name cost.
type Costs struct {
	Effort   func(taxa.Look) float64       // of one look, above 0
	Readings func(*taxa.Trait) [][]float64 // see [Trait]
	Terms
}

func (m Costs) trait(t *taxa.Trait) TableColumn {
	return TableColumn{Trait: t, Effort: m.Effort(t.Look), Readings: m.Readings(t)}
}

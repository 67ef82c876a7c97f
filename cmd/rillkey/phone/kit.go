package phone

import (
	"sync"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/region"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/taxa"
)

// Kit is what pages work with: the animals, the key and the rules. What takes time
// is made when it is first wanted, and once. It may be shared.
type Kit struct {
	Catalog func() (*taxa.Catalog, error)
	Model   func() (*key.Model, error)
	Rules   func() (*scoring.Rules, error)
	Atlas   func() *figure.Atlas // nil where the key cannot be read
	Course  func() (*practice.Course, error)

	Edition []string // what visits are begun with: see visit.Header

	lock     sync.Mutex
	sheet    map[string][]scoring.SheetRow // by protocol
	narrowed map[string][]string           // by protocol, the taxa of which it needs no narrower name
}

// enough are the taxa of which a protocol needs no narrower name; none for a protocol
// that is not known.
func (k *Kit) enough(protocol string) []string {
	k.lock.Lock()
	defer k.lock.Unlock()
	if ids, ok := k.narrowed[protocol]; ok {
		return ids
	}
	rules, err := k.Rules()
	if err != nil {
		return nil
	}
	ids, err := rules.Enough(protocol)
	if err != nil {
		return nil
	}
	if k.narrowed == nil {
		k.narrowed = map[string][]string{}
	}
	k.narrowed[protocol] = ids
	return ids
}

// rows are the rows of a protocol's sheet; none for a protocol that is not known.
func (k *Kit) rows(protocol string) ([]scoring.SheetRow, error) {
	k.lock.Lock()
	defer k.lock.Unlock()
	if rows, ok := k.sheet[protocol]; ok {
		return rows, nil
	}
	rules, err := k.Rules()
	if err != nil {
		return nil, err
	}
	p, err := rules.Protocol(protocol)
	if err != nil {
		return nil, nil // such a visit has no sheet
	}
	if k.sheet == nil {
		k.sheet = map[string][]scoring.SheetRow{}
	}
	k.sheet[protocol] = rules.SheetRows(p)
	return k.sheet[protocol], nil
}

// NewKit is the kit of a key that is built in, by its file's name without ending.
func NewKit(keyName string) *Kit {
	return newKit(source{
		catalog: func() (*taxa.Catalog, error) {
			catalog, err := taxa.Embedded()
			if err != nil {
				return nil, err
			}
			return catalog.InRegion(catalog.RegionNamed(keyName)), nil
		},
		sound: func(c *taxa.Catalog) (*couplets.Sound, error) { return builtIn(keyName, c) },
		rules: scoring.EmbeddedRules,
	})
}

// NewRegionKit is the kit of a region of one's own. The key is the region's, or the
// built-in one that is named.
func NewRegionKit(f *region.OpenRegion, keyName string) *Kit {
	return newKit(source{
		catalog: func() (*taxa.Catalog, error) {
			catalog, err := f.Animals()
			if err != nil {
				return nil, err
			}
			r, err := f.Region(catalog)
			if err != nil {
				return nil, err
			}
			return catalog.InRegion(r), nil
		},
		sound: func(c *taxa.Catalog) (*couplets.Sound, error) {
			if keyName != "" {
				return builtIn(keyName, c)
			}
			_, sound, err := f.Key(c)
			return sound, err
		},
		rules: f.Rules,
	})
}

func builtIn(keyName string, c *taxa.Catalog) (*couplets.Sound, error) {
	return couplets.Load(couplets.Embedded(), keyName+".toml", keyName, c)
}

// source is where a kit has its parts from.
type source struct {
	catalog func() (*taxa.Catalog, error)
	sound   func(*taxa.Catalog) (*couplets.Sound, error)
	rules   func(*taxa.Catalog) (*scoring.Rules, error)
}

func newKit(from source) *Kit {
	k := &Kit{Catalog: sync.OnceValues(from.catalog)}
	k.Model = sync.OnceValues(func() (*key.Model, error) {
		catalog, err := k.Catalog()
		if err != nil {
			return nil, err
		}
		sound, err := from.sound(catalog)
		if err != nil {
			return nil, err
		}
		return key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
	})
	k.Rules = sync.OnceValues(func() (*scoring.Rules, error) {
		catalog, err := k.Catalog()
		if err != nil {
			return nil, err
		}
		rules, err := from.rules(catalog)
		if err != nil {
			return nil, err
		}
		return rules.JudgedAmong(sync.OnceValue(func() *account.Fauna { return k.fauna(catalog) })), nil
	})
	k.Course = sync.OnceValues(k.course)
	k.Atlas = sync.OnceValue(func() *figure.Atlas {
		m, err := k.Model()
		if err != nil {
			return nil
		}
		return figure.NewAtlas(m.Key().Catalog(), m.Key().Sound())
	})
	return k
}

// course is what is practised with the kit.
func (k *Kit) course() (*practice.Course, error) {
	m, err := k.Model()
	if err != nil {
		return nil, err
	}
	plan := practice.Plan{}
	if rules, err := k.Rules(); err == nil {
		if id := m.Key().Catalog().Region().UsualProtocol(); id != "" {
			plan.Effect, _ = rules.Swap(id) // nil where there are none: all errors weigh alike
		}
	}
	return practice.NewCourse(m.Key(), plan)
}

// fauna is that of the kit's key.
func (k *Kit) fauna(catalog *taxa.Catalog) *account.Fauna {
	m, err := k.Model()
	if err != nil {
		return nil
	}
	return account.NewFauna(catalog, m.Key().Commonness())
}

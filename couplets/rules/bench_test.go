package rules_test

import (
	"fmt"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"github.com/BurntSushi/toml"

	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/taxa"
)

// bigKey is a key of n couplets, balanced, over n+1 taxa told apart by the bits
// of their numbers, with texts as long as people write them.
func bigKey(t testing.TB, n int) ([]byte, *taxa.Catalog) {
	t.Helper()
	const bits = 13
	var traits, animals, key strings.Builder
	for b := range bits {
		fmt.Fprintf(&traits, "[trait.b%d]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\n"+
			"state.no.label = \"no\"\nstate.yes.label = \"yes\"\n", b)
	}
	for i := range n + 1 {
		fmt.Fprintf(&animals, "[taxon.t%d]\nrank = \"group\"\nscientific = \"T%d\"\nsource = \"invented\"\n[taxon.t%d.traits]\n", i, i, i)
		for b := range bits {
			fmt.Fprintf(&animals, "b%d = %q\n", b, []string{"no", "yes"}[i>>b&1])
		}
	}
	key.WriteString("[key]\nid = \"big\"\ntitle = \"Big\"\nsource = \"invented\"\n")
	id := 0
	var write func(from, to, bit int) string
	write = func(from, to, bit int) string { // taxa whose numbers agree above bit
		middle := (from>>bit | 1) << bit
		for middle >= to || middle <= from && from>>bit&1 == 1 {
			bit--
			middle = (from>>bit | 1) << bit
		}
		id++
		me := id
		var at [2]int
		fmt.Fprintf(&key, "\n# Couplet %d.\n[couplet.%d]\nask = \"A feature to look at\"\n", me, me)
		for side, r := range [][2]int{{from, middle}, {middle, to}} {
			goal := fmt.Sprintf("taxon  = \"t%d\"", r[0])
			if r[1]-r[0] > 1 {
				goal = fmt.Sprintf("to     = \"<%d.%d>\"", me, side)
			}
			fmt.Fprintf(&key, "[couplet.%d.%c]\ntext   = \"The feature is there to be seen, or it is missing, on\\n"+
				"the side that faces you.\"\ntraits = { b%d = %q }\n%s\n", me, 'a'+side, bit, []string{"no", "yes"}[side], goal)
		}
		for side, r := range [][2]int{{from, middle}, {middle, to}} {
			if r[1]-r[0] > 1 {
				at[side] = id + 1
				write(r[0], r[1], bit-1)
				goals = append(goals, fmt.Sprintf("<%d.%d>", me, side), fmt.Sprint(at[side]))
			}
		}
		return ""
	}
	goals = nil
	write(0, n+1, bits-1)
	catalog, err := taxa.Load(fstest.MapFS{
		"traits.toml": {Data: []byte(traits.String())}, "animals.toml": {Data: []byte(animals.String())}}, "")
	if err != nil {
		t.Fatal(err)
	}
	return []byte(strings.NewReplacer(goals...).Replace(key.String())), catalog
}

var goals []string

// BenchmarkCheck checks a key of 5,000 couplets: what errors and warnings take in
// all and beyond decoding the TOML, and the most memory that they take beside the
// catalog, in sizes of the file. What the decoder takes alone stands beside it.
func BenchmarkCheck(b *testing.B) {
	data, catalog := bigKey(b, 5000)
	fsys := fstest.MapFS{"k": {Data: data}}
	size := float64(len(data))
	b.SetBytes(int64(len(data)))
	before := heap(b)
	peak := watchHeap(b)
	b.ResetTimer()
	for range b.N {
		f, s, err := couplets.Examine(fsys, "k", "k", catalog)
		if err != nil || len(s.Couplets) != 5000 {
			b.Fatal(err)
		}
		rules.Warnings(&rules.Input{File: f, Sound: s, Catalog: catalog})
	}
	b.StopTimer()
	all := b.Elapsed()
	b.ReportMetric(float64(peak())/size, "peak/file")
	b.ReportMetric(float64(before)/1e6, "catalog-MB")
	b.ReportMetric(size/1e6, "MB")

	peak = watchHeap(b)
	begun := time.Now()
	for range b.N {
		var v map[string]any
		if err := toml.Unmarshal(data, &v); err != nil {
			b.Fatal(err)
		}
	}
	decoding := time.Since(begun)
	b.ReportMetric(float64(peak())/size, "decoder-peak/file")
	b.ReportMetric(decoding.Seconds()*1e3/float64(b.N), "decoder-ms")
	b.ReportMetric(all.Seconds()/decoding.Seconds(), "times-decoding") // 1.5 at most
	b.ReportMetric((all-decoding).Seconds()*1e3/float64(b.N), "beyond-ms")
}

// heap is how many bytes of the heap are in use after a collection.
func heap(b *testing.B) uint64 {
	b.Helper()
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m.HeapInuse
}

// watchHeap samples the heap until its result is called, which gives the most it
// grew by.
func watchHeap(b *testing.B) func() uint64 {
	b.Helper()
	before := heap(b)
	var most atomic.Uint64
	stop, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		for {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			most.Store(max(most.Load(), m.HeapInuse))
			select {
			case <-stop:
				return
			case <-time.After(2 * time.Millisecond):
			}
		}
	}()
	return func() uint64 { close(stop); <-done; return max(most.Load(), before) - before }
}

//go:build unix

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"
)

// A saved answer takes at most four times as long as one append and sync by itself,
// in 99 of 100, with 40 phones that press every second: measured beside each other on
// one disk, since both hang on it and on what else the machine does, and the middle
// of five runs. The table is a process of its own, as it is at a stream; the phones
// share another. It takes a minute and a quiet machine, so RILLKEY_TABLE=1 asks for it.
func TestASavedAnswerTakesNoLongerThanFourSyncs(t *testing.T) {
	if os.Getenv("RILLKEY_TABLE") == "" {
		t.Skip("RILLKEY_TABLE=1 measures")
	}
	var times []float64
	for range 5 {
		took, alone := answersBesideSyncs(t, 40, 10)
		t.Logf("%d answers: median %v, 99 in 100 within %v; %d syncs alone: median %v, 99 in 100 within %v",
			len(took), quantile(took, 0.5), quantile(took, 0.99), len(alone), quantile(alone, 0.5), quantile(alone, 0.99))
		times = append(times, float64(quantile(took, 0.99))/float64(quantile(alone, 0.99)))
	}
	slices.Sort(times)
	t.Logf("99 in 100 answers within so many syncs: %.1f", times)
	if times[len(times)/2] > 4 {
		t.Errorf("%.1f times as long as a sync", times[len(times)/2])
	}
}

// answersBesideSyncs are how long phones waited that press once a second or so, and
// how long an append and sync of as much took meanwhile.
func answersBesideSyncs(t *testing.T, phones, presses int) (took, alone []time.Duration) {
	_, file := begun(t)
	runIn(t, "visit", "sample", "--visit", file, "--habitat", "riffle")
	h := &held{t: t, args: []string{"table", "--json", "--visit", file, "--port", freePort(t), "--at", "127.0.0.1"}}
	h.begin()
	defer h.kill()
	var all []*counter
	for n := range phones {
		c := newCounter(h.told.Addresses[0], n)
		if err := c.joins(h.told.Spoken); err != nil {
			t.Fatal(err)
		}
		_ = c.hands()
		all = append(all, c)
	}
	stop := make(chan struct{})
	var counting, syncing sync.WaitGroup
	syncing.Go(func() { alone = syncs(t, stop) })
	for _, c := range all {
		counting.Go(func() {
			for range presses {
				time.Sleep(time.Duration(c.random.IntN(2000)) * time.Millisecond)
				c.enters()
				_ = c.hands()
			}
		})
	}
	counting.Wait()
	close(stop)
	syncing.Wait()
	for _, c := range all {
		took = append(took, c.took...)
	}
	return took, alone
}

// syncs appends a block to a file and syncs it, again and again, until it is stopped.
func syncs(t *testing.T, stop chan struct{}) (took []time.Duration) {
	f, err := os.OpenFile(filepath.Join(t.TempDir(), "alone"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		t.Error(err)
		return []time.Duration{1}
	}
	defer f.Close()
	for {
		select {
		case <-stop:
			return took
		case <-time.After(20 * time.Millisecond):
		}
		from := time.Now()
		_, _ = f.Write(bytes.Repeat([]byte("x"), 300))
		_ = f.Sync()
		took = append(took, time.Since(from))
	}
}

// quantile is the time that so large a share of all stays within.
func quantile(d []time.Duration, share float64) time.Duration {
	slices.Sort(d)
	return d[int(share*float64(len(d)-1))]
}

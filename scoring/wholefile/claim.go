package wholefile

import (
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// On a card that knows neither hard links nor the system's call a name is kept by an
// empty file until the whole one is moved onto it. A program that is killed in between
// leaves the empty one; so that it can be told from one that somebody else made, the
// whole one is called by a claim to that name before.

// soon is how long after its contents a claimed file is empty under its name at most.
// A card tells the time of a file to two seconds.
const (
	soon    = time.Hour
	rounded = 2 * time.Second
)

// claimEnd is how the claims to a name end.
func claimEnd(base string) string {
	h := fnv.New32a()
	_, _ = h.Write([]byte(base)) // never fails
	return fmt.Sprintf("-%d.tmp", h.Sum32())
}

// nameClaimed gives a scratch file its name by way of a claim and an empty file. All is
// locked.
func nameClaimed(temp, path string) error {
	dir, base := filepath.Split(path)
	claim := filepath.Join(dir, fmt.Sprintf(".rillkey-%d%s", rand.Uint32(), claimEnd(base)))
	f, err := os.OpenFile(claim, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	all.scratch[claim] = true
	defer func() {
		_ = os.Remove(claim) // gone where it has its name
		delete(all.scratch, claim)
	}()
	if err := errors.Join(f.Close(), os.Rename(temp, claim)); err != nil {
		return err
	}
	if err := SyncFolder(filepath.Dir(path)); err != nil {
		return err
	}
	return nameOver(claim, path, os.O_WRONLY|os.O_CREATE|os.O_EXCL)
}

// LeftEmpty reports whether a program that was killed left an empty file at path as it was
// about to give a whole one that name.
func LeftEmpty(path string) bool {
	info, err := os.Lstat(path)
	if err != nil || !isEmpty(info) {
		return false
	}
	entries, _ := os.ReadDir(filepath.Dir(path)) // a folder that cannot be read shows no claim
	for _, e := range entries {
		if claim, err := e.Info(); err == nil && claims(claim, info) {
			return true
		}
	}
	return false
}

func isEmpty(info fs.FileInfo) bool { return info.Mode().IsRegular() && info.Size() == 0 }

// claims reports whether a file is the claim to the name of an empty one, made with it.
func claims(claim, empty fs.FileInfo) bool {
	after := empty.ModTime().Sub(claim.ModTime())
	return claim.Mode().IsRegular() && scratchName().MatchString(claim.Name()) &&
		strings.HasSuffix(claim.Name(), claimEnd(empty.Name())) && after >= -rounded && after <= soon
}

// removeLeft removes the empty file that a claim is for.
func removeLeft(dir string, entries []fs.DirEntry, claim fs.FileInfo) {
	for _, e := range entries {
		if info, err := e.Info(); err == nil && isEmpty(info) && claims(claim, info) {
			_ = os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

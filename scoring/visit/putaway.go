package visit

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// PutAwaySuffix is added to the name of a file that was merged into another one,
// so that no search for visits finds it.
const PutAwaySuffix = ".merged"

// PutAway renames the file of a visit that was merged into another one, and
// returns its new name. Nothing is deleted and no other file replaced. It is
// refused where the file holds an event that the merged visit lacks, because
// another program added it meanwhile. Call it only once the merged visit is on
// the disk.
func PutAway(path string, merged *Visit) (string, error) {
	v, err := Read(path)
	if err != nil {
		return "", err
	}
	shown := plain.Printable(path)
	added := wording.Errorf("%s: another program added to it while it was merged; merge it once more", shown)
	if !merged.holds(v) {
		return "", added
	}
	to, err := rename(path, PutAwaySuffix)
	if err != nil {
		return "", err
	}
	// Whoever adds to it from here on finds that it has moved.
	if v, err = Read(to); err != nil || !merged.holds(v) {
		return "", errors.Join(added, wholefile.Move(to, path))
	}
	return to, nil
}

// PutAwayDamaged renames a damaged file once a sound one was made of it, and
// returns its new name. Nothing is deleted and no other file replaced.
func PutAwayDamaged(path string) (string, error) {
	return rename(path, ".damaged")
}

// rename adds a suffix to the name of a file, and a number where that is taken.
func rename(path, suffix string) (to string, err error) {
	to = path + suffix
	for n := 2; ; n++ {
		if err = wholefile.Move(path, to); !errors.Is(err, fs.ErrExist) {
			break
		}
		to = fmt.Sprintf("%s%s-%d", path, suffix, n)
	}
	if err != nil {
		return "", wording.Errorf("%s: it cannot be renamed: %w", plain.Printable(path), reason(err))
	}
	return to, nil
}

// holds reports whether every event of the other is here.
func (v *Visit) holds(other *Visit) bool {
	held := map[string]bool{}
	for _, e := range v.Events {
		held[e.ID] = true
	}
	return !slices.ContainsFunc(other.Events, func(e Event) bool { return !held[e.ID] })
}

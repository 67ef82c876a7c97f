package network

import (
	"cmp"
	"net/url"
	"os"
	"path/filepath"
	"runtime"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// CheckPasswordFile is an error if the file that passwords for an address are taken from can
// be read by others, or is none. That is the one that the address names as its passfile, else
// PGPASSFILE, else .pgpass in the home folder, as PostgreSQL's documentation of libpq has it
// ("The Password File"). On Windows, where libpq does not look either, and without a file
// there is nothing to guard.
func CheckPasswordFile(address string, env func(string) string) error {
	file := cmp.Or(passwordFileIn(address), env("PGPASSFILE"))
	if home := env("HOME"); file == "" && home != "" {
		file = filepath.Join(home, ".pgpass")
	}
	info, err := os.Stat(file)
	switch {
	case err != nil || runtime.GOOS == "windows":
		return nil
	case !info.Mode().IsRegular():
		return wording.Errorf("the file of passwords %s is no ordinary file", plain.Printable(file))
	case info.Mode().Perm()&0o077 != 0:
		return wording.Errorf("others may read the file of passwords %s; 'chmod 600' it first", plain.Printable(file))
	}
	return nil
}

// passwordFileIn is the file that an address names itself, or "".
func passwordFileIn(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return "" // nothing connects to it either
	}
	return u.Query().Get("passfile")
}

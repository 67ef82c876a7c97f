package couplets

import (
	"embed"

	"rillkey/taxa"
)

//go:embed regions/*.toml
var regions embed.FS

// EmbeddedRegion is the region that the embedded key with the id is meant for.
func EmbeddedRegion(id string, catalog *taxa.Catalog) (*Region, error) {
	name := "regions/" + id + ".toml"
	return ReadRegion(regions, name, name, catalog)
}

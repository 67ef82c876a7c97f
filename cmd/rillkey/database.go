package main

import (
	"context"
	"errors"
	"log/slog"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/network"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// noSecretIn refuses words with a password, whatever the command.
func noSecretIn(words []string) error {
	if network.SecretIn(words) {
		return misused("a password in an address can be read by others on this machine; leave it out, and give it in the " +
			"environment as PGPASSWORD, or in a file of mode 0600 that PGPASSFILE names. Change that password now")
	}
	return nil
}

// settings are those of a connection to the database at an address, with the password from
// where it may be.
func (c *console) settingsOf(address string) (*pgx.ConnConfig, error) {
	if err := noSecretIn([]string{address}); err != nil {
		return nil, err
	}
	if !network.IsAddress(address) {
		return nil, misused("%s is no address of a database; write it as postgres://NAME@HOST/DATABASE", plain.Quote(address))
	}
	if err := network.CheckPasswordFile(address, c.env); err != nil {
		return nil, fault{statusMisused, err}
	}
	conf, err := pgx.ParseConfig(address)
	if err != nil { // its words could hold what was typed
		return nil, misused("this address of a database cannot be read; write it as postgres://NAME@HOST/DATABASE")
	}
	conf.RuntimeParams["application_name"] = "rillkey"
	return conf, nil
}

// logger writes what a network does as structured lines to standard error, as far as
// RILLKEY_LOG asks for it: debug, info, warn or error.
func (c *console) logger() *slog.Logger {
	level := slog.LevelWarn
	if asked := c.env("RILLKEY_LOG"); asked == "" || level.UnmarshalText([]byte(asked)) != nil {
		return slog.New(slog.DiscardHandler)
	}
	return slog.New(slog.NewJSONHandler(c.stderr, &slog.HandlerOptions{Level: level}))
}

// database opens the database of a network.
func (a *app) database(ctx context.Context, address string) (*network.DB, error) {
	conf, err := a.settingsOf(address)
	if err != nil {
		return nil, err
	}
	db, err := network.Open(ctx, conf, a.logger())
	if errors.Is(err, network.ErrNotBegun) {
		err = wording.Errorf("%w; its owner mends that by: rillkey network begin --at %s", err, plain.ShellWord(address))
	}
	return db, err
}

// oneDatabase is the address among some words, empty where they are files; it stands alone.
func oneDatabase(words []string) (string, error) {
	for _, word := range words {
		if network.IsAddress(word) {
			if len(words) > 1 {
				return "", wording.NewError("a database stands alone: name it without files, folders or another database")
			}
			return word, nil
		}
	}
	return "", nil
}

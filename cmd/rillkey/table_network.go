package main

import (
	"context"
	"net"
	"strconv"
	"time"

	"rillkey/cmd/rillkey/desk"
	"rillkey/cmd/rillkey/table"
	"rillkey/taxa/wording"
)

// holdDesk serves the page of a network's coordinator on this machine alone.
func holdDesk(a *app, address string, port int) error {
	book, err := a.bookInUse()
	if err != nil {
		return err
	}
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	db, err := a.database(ctx, address)
	if err != nil {
		return err
	}
	defer db.Close()
	at := net.JoinHostPort("127.0.0.1", strconv.Itoa(port))
	listener, err := net.Listen("tcp", at)
	if err != nil {
		return wording.Errorf("nothing can be served on port %d: %w; choose another with --port", port, err)
	}
	d := &desk.Desk{Hosts: []string{at, net.JoinHostPort("localhost", strconv.Itoa(port))}}
	d.Look = func(ctx context.Context) (s desk.Sight, err error) {
		s, err = desk.SightOf(ctx, db, book, a.now(), time.Now)
		s.Waiting = a.inNames(s.Waiting)
		return s, err
	}
	a.plainly("The desk is at http://%s until Ctrl-C, on this machine alone.", at)
	server := table.NewServer(d.Handler())
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return wording.Errorf("the desk ended: %w", err)
	case <-ctx.Done():
		return server.Close()
	}
}

package network

import (
	"context"
	"errors"
	"io"
	"net"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// The states of SQL that are told apart; the classes and codes are PostgreSQL's,
// appendix A of its manual.
const (
	classRefusedLogin = "28"
	classNoDatabase   = "3D"
	classFull         = "53" // insufficient resources
	classRollback     = "40" // of two who stood in each other's way
	classLeaving      = "57" // the server stops, or stopped this
	classConnection   = "08"
	codeNoSchema      = "3F000"
	codeNoTable       = "42P01"
	codeNoRight       = "42501"
	codeDiskFull      = "53100"
	codeTooMany       = "53300"
	codeTwice         = "23505"
	classDoubled      = "42" // of what is wrong with a statement: something is there already
)

func sqlState(err error) string {
	var pg *pgconn.PgError
	if errors.As(err, &pg) {
		return pg.Code
	}
	return ""
}

// passing tells whether trying again may help: the server was lost, starts, or let one of
// two who worked at once give way.
func passing(err error) bool {
	if state := sqlState(err); state != "" {
		return strings.HasPrefix(state, classRollback) || strings.HasPrefix(state, classLeaving) ||
			strings.HasPrefix(state, classConnection) || state == codeTooMany
	}
	return lost(err)
}

// lost tells that the server could not be reached, or was and is gone.
func lost(err error) bool {
	var netErr net.Error
	var refused *pgconn.ConnectError
	return errors.As(err, &netErr) || errors.As(err, &refused) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) ||
		errors.Is(err, pgx.ErrTxClosed) || errors.Is(err, net.ErrClosed) || strings.Contains(err.Error(), "conn closed") ||
		strings.Contains(err.Error(), "broken pipe")
}

// inWords says in the words of people what the server did not do. Of what the server
// says itself only the message is passed on: details may hold text of a row.
func inWords(err error) error {
	if err == nil || errors.Is(err, errTold) || errors.Is(err, context.Canceled) {
		return err
	}
	var pg *pgconn.PgError
	if !errors.As(err, &pg) {
		if lost(err) {
			return told(err, wording.Text("the database server cannot be reached, or is gone; what was sent before is kept there: "+
				"try again later"))
		}
		return err
	}
	said := plain.Quote(pg.Message)
	switch state := pg.Code; {
	case state == codeDiskFull:
		return told(err, wording.Text("the disk of the database server is full; what was sent before is kept there, the rest is "+
			"still here: "+
			"tell whoever keeps the server, then run the same command again"))
	case strings.HasPrefix(state, classRefusedLogin):
		return told(err, wording.Text("the database server does not let this user in; check the name, and the password in "+
			"PGPASSWORD or the "+
			"file of PGPASSFILE"))
	case strings.HasPrefix(state, classNoDatabase):
		return told(err, wording.Text("there is no such database on the server; check its name at the end of the address"))
	case state == codeNoSchema, state == codeNoTable:
		return told(errors.Join(err, ErrNotBegun), wording.Text("this database holds no network of groups yet"))
	case state == codeNoRight:
		return told(err, wording.Sprintf("this user of the database may not do that (%s); groups send and read their own, "+
			"coordinators read "+
			"all and grade", said))
	case strings.HasPrefix(state, classFull), strings.HasPrefix(state, classLeaving), strings.HasPrefix(state, classConnection):
		return told(err, wording.Sprintf("the database server could not go on (%s); what was sent before is kept there: try again "+
			"later", said))
	}
	return told(err, wording.Sprintf("the database server refused that: %s (state %s)", said, plain.Printable(pg.Code)))
}

// ErrNotBegun means that the owner of the database has to make the network, or to bring it
// up to date.
var ErrNotBegun = wording.NewError("the network is not begun, or of an older program")

// errTold marks an error that is in plain words already.
var errTold = errors.New("told")

func told(cause error, words string) error {
	return plain.WithCause(words, errors.Join(cause, errTold))
}

package main

import (
	"context"
	"crypto/tls"
	"errors"
	"io"
	"net"
	"net/netip"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
	"rillkey/cmd/rillkey/pocket"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/table"
	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// tableFlags say where a table is and what is shown of it.
type tableFlags struct {
	addresses             []string
	port                  int
	called, cert, certKey string
	sheet                 string
	board, newCodes       bool
	network               string
}

func tableCommand(a *app) *cobra.Command {
	var f tableFlags
	cmd := &cobra.Command{
		Use:   "table",
		Short: "Let everybody name and count at once, on their phones, into one visit",
		Long: `Serves the page for phones on this laptop's own network, a hotspot or a router
without internet, and unites in the visit's file what all phones and this keyboard
enter. Phones open the address that is printed, or scan the QR code, and give a
name. Each entry is on the disk before its phone is told so; a phone out of reach
goes on counting and hands its entries over later.

It serves until Ctrl-C, on private addresses alone, and nothing but the page and the
entries of this one visit. Codes and phones are kept beside the visit's file, so
that phones need not join again when the table is begun anew.`,
		Example: `  rillkey table
  rillkey table --sheet table.html
  rillkey table --board
  rillkey table --at 192.168.1.5 --cert table.pem --cert-key table.key --called table.example`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return holdTable(cmd.Context(), a, f) },
	}
	if !a.meant("table") {
		return cmd
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.addresses, "at", nil, "serve on this `ADDRESS` of the laptop alone; may be repeated (else on all private ones)")
	flags.IntVar(&f.port, "port", 8017, "the port, `N`")
	flags.StringVar(&f.called, "called", "", "a `NAME` by which phones reach the laptop too")
	flags.StringVar(&f.cert, "cert", "", "serve by TLS, with the certificate in this `FILE`")
	flags.StringVar(&f.certKey, "cert-key", "", "the `FILE` with the certificate's private key")
	flags.StringVar(&f.sheet, "sheet", "", "write a page to print and prop up, a new `FILE`")
	flags.BoolVar(&f.board, "board", false, "show how the visit stands, and serve nothing")
	flags.StringVar(&f.network, "network", "",
		"serve the desk of a network's coordinator instead, to this machine alone: the database's `ADDRESS`")
	flags.BoolVar(&f.newCodes, "new-codes", false, "begin the day with new codes: all phones join anew")
	cmd.MarkFlagsRequiredTogether("cert", "cert-key")
	return cmd
}

func holdTable(ctx context.Context, a *app, f tableFlags) error {
	if f.port < 1 || f.port > 65535 {
		return misused("--port %d: a port is a number from 1 to 65535", f.port)
	}
	if f.network != "" {
		return holdDesk(a, f.network, f.port)
	}
	v, err := a.readVisit()
	if err != nil {
		return err
	}
	a.follow(v)
	if f.board {
		return watchBoard(a, v)
	}
	if f.sheet != "" {
		if err := refuseExisting(f.sheet); err != nil {
			return err
		}
	}
	secure, err := certificate(f)
	if err != nil {
		return err
	}
	t, err := laidTable(ctx, a, f, v.File)
	if err != nil {
		return err
	}
	listeners, err := listen(f)
	if err != nil {
		return err
	}
	for _, l := range listeners {
		t.Hosts = append(t.Hosts, l.Addr().String())
	}
	t.Hosts = append(t.Hosts, net.JoinHostPort("localhost", strconv.Itoa(f.port)))
	if f.called != "" {
		t.Hosts = append(t.Hosts, f.called, net.JoinHostPort(f.called, strconv.Itoa(f.port)))
	}
	t.Secure = secure != nil
	if err := tellTable(a, t, f, v); err != nil {
		return err
	}
	debug.SetMemoryLimit(tableMemory)
	return serve(a, t, listeners, secure)
}

// tableMemory is what the table had better do with, in bytes, beside a browser on an
// old laptop.
const tableMemory = 64 << 20

// laidTable is the table of the visit in a file, before it serves.
func laidTable(ctx context.Context, a *app, f tableFlags, file string) (*table.SortingTable, error) {
	kept, err := keptFor(a, "a table")
	if err != nil {
		return nil, err
	}
	t := &table.SortingTable{Kit: kept.kit(), Now: a.now, Random: a.random}
	if t.Visit, err = visit.Share(file); err != nil {
		return nil, err
	}
	if t.Guests, err = table.OpenGuests(table.StatePath(file), f.newCodes, a.random); err != nil {
		return nil, err
	}
	page, err := kept.page()
	if err != nil {
		return nil, err
	}
	page.Served = true
	if page.Program, err = pocket.BuildProgram(ctx, ".", a.leaving.runs); err != nil {
		a.complain(wording.Sprintf("rillkey: phones get plain pages, which need the laptop within reach: %s", err))
		return t, nil
	}
	var text strings.Builder
	if err := page.Write(&text); err != nil {
		return nil, err
	}
	t.Page, t.Policy = []byte(text.String()), page.Policy()+"; frame-ancestors 'none'"
	return t, nil
}

func certificate(f tableFlags) (*tls.Config, error) {
	if f.cert == "" {
		return nil, nil
	}
	var texts [2][]byte
	for i, file := range []string{f.cert, f.certKey} {
		dir, name := splitPath(file)
		text, err := authored.Read(authored.DirFS(dir), name, file)
		if err != nil {
			return nil, fileError(file, err)
		}
		texts[i] = text
	}
	pair, err := tls.X509KeyPair(texts[0], texts[1])
	if err != nil {
		return nil, wording.Errorf("the certificate cannot be used: %w", err)
	}
	return &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12}, nil
}

// listen opens the addresses that are meant; one of them at least.
func listen(f tableFlags) ([]net.Listener, error) {
	var addresses []netip.Addr
	for _, at := range f.addresses {
		one, err := netip.ParseAddr(at)
		if err != nil {
			return nil, misused("--at %q is no address; give one of this laptop's, as 192.168.1.5", at)
		}
		addresses = append(addresses, one)
	}
	if len(addresses) == 0 {
		addresses = table.Addresses()
	}
	var open []net.Listener
	var failed error
	for _, one := range addresses {
		l, err := net.Listen("tcp", netip.AddrPortFrom(one, uint16(f.port)).String())
		if err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		open = append(open, l)
	}
	if len(open) == 0 {
		return nil, wording.Errorf("nothing can be served on port %d: %w; choose another with --port", f.port, failed)
	}
	return open, nil
}

// tableTold is what a script needs to know of a table.
type tableTold struct {
	Visit     string   `json:"visit"`
	File      string   `json:"file"`
	Addresses []string `json:"addresses"`
	Link      string   `json:"link"` // what the QR code says
	Spoken    string   `json:"spoken_code"`
	Leader    string   `json:"leader_code"`
	Page      bool     `json:"page"` // phones get the page that goes on out of reach
}

// tellTable says how phones come to the table.
func tellTable(a *app, t *table.SortingTable, f tableFlags, v *visit.Visit) error {
	scheme := "http"
	if t.Secure {
		scheme = "https"
	}
	host, codes := t.Hosts[0], t.Guests.Codes()
	if f.called != "" {
		host = t.Hosts[len(t.Hosts)-1]
	}
	link := table.JoinAddress(scheme, host, codes.Day)
	rows, err := table.QR(link)
	if err != nil {
		return err
	}
	if f.sheet != "" {
		page := paper.TableSheet(v.Header.Site, scheme+"://"+host, table.Grouped(codes.Spoken), rows)
		if err := a.newFile(f.sheet, nil, func(w io.Writer) error { _, err := page.WriteTo(w); return err }); err != nil {
			return err
		}
	}
	told := tableTold{v.Header.ID, v.File, nil, link, codes.Spoken, codes.Leader, t.Page != nil}
	for _, h := range t.Hosts {
		told.Addresses = append(told.Addresses, scheme+"://"+h)
	}
	if a.json {
		return show.JSON(a.stdout, told)
	}
	if _, err := io.WriteString(a.stdout, a.painted(table.QRText(rows))); err != nil {
		return err
	}
	a.plainly("Phones in this laptop's network scan this, or open %s", scheme+"://"+host)
	a.plainly("Code of the day, spoken: %s", table.Grouped(codes.Spoken))
	a.plainly("Leader's own code, for the leader alone: %s", table.Grouped(codes.Leader))
	a.plainly("Into: %s", plain.Printable(v.File))
	a.plainly("Served on: %s", strings.Join(told.Addresses, ", "))
	if !t.Secure {
		a.plainly("Names go through this network unencrypted: use one with a password, or --cert.")
	}
	if strings.HasPrefix(host, "127.") {
		a.plainly("Only this laptop itself reaches it: open its hotspot or join a router, then begin the table again.")
	}
	a.plainly("Ctrl-C ends the table. Nothing is lost by that; phones go on and hand over later.")
	return nil
}

// painted is a QR code as light on dark whatever the terminal's colours are.
func (c *console) painted(blocks string) string {
	if !c.onScreen() || c.env("NO_COLOR") != "" {
		return blocks
	}
	var b strings.Builder
	for line := range strings.Lines(blocks) {
		b.WriteString("\x1b[38;5;231;48;5;16m" + strings.TrimSuffix(line, "\n") + "\x1b[0m\n")
	}
	return b.String()
}

// serve answers phones until a signal ends it.
func serve(a *app, t *table.SortingTable, listeners []net.Listener, secure *tls.Config) error {
	server := table.NewServer(t.Handler())
	server.TLSConfig = secure
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	failed := make(chan error, len(listeners))
	for _, l := range listeners {
		go func() {
			if secure != nil {
				failed <- server.ServeTLS(l, "", "")
				return
			}
			failed <- server.Serve(l)
		}()
	}
	select {
	case err := <-failed:
		return wording.Errorf("the table ended: %w", err)
	case <-ctx.Done():
	}
	ending, done := context.WithTimeout(context.Background(), 5*time.Second)
	defer done()
	if err := server.Shutdown(ending); err != nil {
		return server.Close()
	}
	a.plainly("The table is closed. All that phones were told is saved is in the visit's file.")
	return nil
}

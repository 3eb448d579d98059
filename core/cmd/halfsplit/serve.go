package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"

	"halfsplit/web"
)

const serveUsage = `usage: halfsplit serve [--addr :8420] [--data DIR]

Serves the phone page. Once a phone has opened it, the phone needs neither
this server nor a network.

  --addr ADDR   where to listen; :0 takes any free port (default :8420)
  --data DIR    a folder this server may keep things in; the page itself keeps
                everything on the phone, so nothing is written there yet
`

// serve runs until it is interrupted. It returns the exit code: 0 after an
// interrupt, 2 when it could not start, with the reason and the remedy on
// stderr.
func serve(args []string, stdout, stderr io.Writer) int {
	return serveWith(web.Built(), args, stdout, stderr)
}

func serveWith(built bool, args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() { fmt.Fprint(stderr, serveUsage) }
	addr := flags.String("addr", ":8420", "")
	data := flags.String("data", "", "")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "halfsplit serve: it takes no argument %q\n", flags.Arg(0))
		flags.Usage()
		return 2
	}
	if !built {
		fmt.Fprint(stderr, "halfsplit serve: this program was built without the page\n"+
			"  hint: run \"make build\" and start bin/halfsplit\n")
		return 2
	}
	if err := checkData(*data); err != nil {
		fmt.Fprintf(stderr, "halfsplit serve: --data %s: %v\n  hint: name a folder that exists\n", *data, err)
		return 2
	}
	listener, err := net.Listen("tcp", *addr)
	if err != nil {
		fmt.Fprintf(stderr, "halfsplit serve: cannot listen on %s: %v\n  hint: %s\n", *addr, err, listenHint(err))
		return 2
	}
	return serveOn(listener, web.Dist(), stdout, stderr)
}

func serveOn(listener net.Listener, dist fs.FS, stdout, stderr io.Writer) int {
	server := &http.Server{
		Handler:           newPage(dist),
		ReadHeaderTimeout: 10 * time.Second,
	}
	fmt.Fprintf(stdout, "Halfsplit is at %s\n", pageURL(listener.Addr()))
	stop := make(chan os.Signal, 1)
	signal.Notify(stop, os.Interrupt, syscall.SIGTERM)
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		fmt.Fprintf(stderr, "halfsplit serve: %v\n", err)
		return 2
	case <-stop:
		// Closing drops keep-alive connections too: a phone that has the page
		// does not miss them.
		if err := server.Close(); err != nil {
			fmt.Fprintf(stderr, "halfsplit serve: %v\n", err)
		}
		return 0
	}
}

func checkData(dir string) error {
	if dir == "" {
		return nil
	}
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("there is no such folder")
	case err != nil:
		return err
	case !info.IsDir():
		return errors.New("that is a file")
	}
	return nil
}

// listenHint says what to do about an address that cannot be had.
func listenHint(err error) string {
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return "another program listens there, perhaps another halfsplit; stop it or choose another port with --addr"
	case errors.Is(err, syscall.EACCES):
		return "ports under 1024 need special rights; choose a higher one with --addr"
	default:
		return "an address looks like :8420 or 127.0.0.1:8420"
	}
}

// pageURL is the address to open. A browser grants offline working only to
// localhost or https, so that is what an unspecified address is shown as.
func pageURL(addr net.Addr) string {
	tcp, ok := addr.(*net.TCPAddr)
	if !ok {
		return "http://" + addr.String() + "/"
	}
	host := tcp.IP.String()
	if tcp.IP.IsUnspecified() || tcp.IP.IsLoopback() {
		host = "localhost"
	}
	return "http://" + net.JoinHostPort(host, fmt.Sprint(tcp.Port)) + "/"
}

package preview

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log"
	"net"
	"net/http"
	"sync/atomic"
	"syscall"
	"time"
)

// What one server takes on. A browser with two hundred open pages stays far below
// it, and a reader that reads too slowly is let go.
const (
	maxConnections = 1024
	maxRequests    = 256
	maxStreams     = 512

	headerTime = 5 * time.Second
	idleTime   = time.Minute
	answerTime = 2 * time.Minute // a paused film asks again for the rest
	closeTime  = time.Second
	maxHeader  = 16 << 10 // bytes
)

// Listen opens a port on the loopback interface, which other computers cannot
// reach. Port 0 means any free one. Where the port is in use by another program a
// free one is opened in its place and moved is true.
func Listen(port uint16) (ln net.Listener, moved bool, err error) {
	ln, err = net.ListenTCP("tcp4", loopback(port))
	if errors.Is(err, syscall.EADDRINUSE) {
		ln, err = net.ListenTCP("tcp4", loopback(0))
		moved = true
	}
	if errors.Is(err, fs.ErrPermission) {
		err = fmt.Errorf("%w: choose a port from 1024 on", err)
	}
	if err != nil {
		return nil, false, fmt.Errorf("cannot open port %d: %w", port, err)
	}
	return ln, moved, nil
}

func loopback(port uint16) *net.TCPAddr {
	return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: int(port)}
}

// Serve answers on the listener until the context is done, and closes it.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	server := &http.Server{
		Handler:           s.Handler(),
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ConnState:         limit(maxConnections),
		ReadHeaderTimeout: headerTime,
		WriteTimeout:      answerTime,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    maxHeader,
		ErrorLog:          log.New(io.Discard, "", 0), // a browser that hangs up is no news
	}
	stopped := make(chan error, 1)
	go func() { stopped <- server.Serve(ln) }()
	select {
	case err := <-stopped:
		return fmt.Errorf("the preview has stopped: %w", err)
	case <-ctx.Done():
	}
	// The streams end with the context; whoever is still reading has a moment.
	patience, cancel := context.WithTimeout(context.WithoutCancel(ctx), closeTime)
	defer cancel()
	if server.Shutdown(patience) != nil {
		server.Close()
	}
	<-stopped
	return nil
}

// limit closes connections beyond the given number.
func limit(most int64) func(net.Conn, http.ConnState) {
	var open atomic.Int64
	return func(c net.Conn, state http.ConnState) {
		switch state {
		case http.StateNew:
			if open.Add(1) > most {
				c.Close()
			}
		case http.StateClosed, http.StateHijacked:
			open.Add(-1)
		}
	}
}

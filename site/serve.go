package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"syscall"
	"time"
)

const serveHead = `Builds the pages and shows them in your browser at an address of this machine.
When the source changes, the pages are built again and those that are open
reload themselves. Stop it with Ctrl-C.`

// runServe builds the site, then serves it until the context ends.
func runServe(ctx context.Context, args []string, stderr io.Writer) error {
	var options buildOptions
	flags := newFlags("serve", serveHead, stderr)
	addr := flags.String("addr", "localhost:8080", "`HOST:PORT` at which the pages are shown")
	watch := flags.Bool("watch", true, "build again when the source changes")
	options.register(flags)
	words, err := parse(flags, args)
	if err != nil {
		return err
	}
	if len(words) > 0 {
		return fmt.Errorf("serve takes no words, but got %q", words[0])
	}
	listener, err := listen(*addr)
	if err != nil {
		return err
	}
	defer listener.Close()
	b, err := newBuilder(ctx, options, stderr)
	if err != nil {
		return err
	}
	if err := b.build(ctx); err != nil {
		return err
	}
	fmt.Fprintf(stderr, "the pages are at http://%s\n", listener.Addr())
	if !*watch {
		return serve(ctx, listener, http.FileServer(http.Dir(options.out)))
	}
	w := &watcher{builder: b}
	go w.run(ctx)
	return serve(ctx, listener, w.reloading(options.out))
}

// listen takes the address before the build, so that a port in use is said at
// once.
func listen(addr string) (net.Listener, error) {
	listener, err := net.Listen("tcp", addr)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("%s is in use by another program; choose another with: go run ./site serve -addr localhost:8081", addr)
	case err != nil:
		return nil, fmt.Errorf("-addr %s cannot be used: %w", addr, err)
	}
	return listener, nil
}

// serve shows what the handler has until the context ends.
func serve(ctx context.Context, listener net.Listener, pages http.Handler) error {
	server := &http.Server{Handler: noStore(pages), ReadHeaderTimeout: 10 * time.Second}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	closing, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	if err := server.Shutdown(closing); err != nil {
		return server.Close()
	}
	return nil
}

// noStore has the browser ask again each time, so that a new build is seen.
func noStore(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-cache")
		next.ServeHTTP(w, r)
	})
}

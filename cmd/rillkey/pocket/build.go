//go:build !released

package pocket

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// module is the name of the program's source, which the page is built from.
const module = "rillkey"

// Make builds the program for browsers from the source in the folder dir, or above
// it, with the Go at hand; what it takes is a few seconds, a minute the first time.
func Make(ctx context.Context, dir string) (Program, error) {
	root, err := source(ctx, dir)
	if err != nil {
		return Program{}, err
	}
	scratch, err := os.MkdirTemp("", "rillkey-page-")
	if err != nil {
		return Program{}, err
	}
	defer os.RemoveAll(scratch)
	out := filepath.Join(scratch, "page.wasm")
	// Without inlining what is packed is an eighth smaller; in the runtime it is kept,
	// which every step of the start goes through.
	build := exec.CommandContext(ctx, "go", "build", "-trimpath", "-gcflags=all=-l", "-gcflags=runtime/...=", "-gcflags=internal/...=",
		"-ldflags=-s -w", "-o", out, "./cmd/rillkey/pocket/browser")
	build.Dir, build.Env = root, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if said, err := build.CombinedOutput(); err != nil {
		return Program{}, fmt.Errorf("the page's program could not be built: %w: %s", err, bytes.TrimSpace(said))
	}
	wasm, err := os.ReadFile(out)
	if err != nil {
		return Program{}, err
	}
	runner, err := goFile(ctx, filepath.Join("lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return Program{}, err
	}
	return Pack(wasm, runner)
}

// ErrNoSource means that there is neither a page inside this program nor what it is
// built from.
var ErrNoSource = errors.New("this program has no page for phones inside, and builds one only in the folder of its own source, " +
	"with Go at hand; " +
	"released programs have it inside")

func source(ctx context.Context, dir string) (string, error) {
	ask := exec.CommandContext(ctx, "go", "list", "-m", "-f", "{{.Path}} {{.Dir}}")
	ask.Dir = dir
	said, err := ask.Output()
	path, root, _ := strings.Cut(strings.TrimSpace(string(said)), " ")
	if err != nil || path != module {
		return "", ErrNoSource
	}
	return root, nil
}

// goFile reads a file of the Go distribution.
func goFile(ctx context.Context, name string) (string, error) {
	root, err := exec.CommandContext(ctx, "go", "env", "GOROOT").Output()
	if err != nil {
		return "", err
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), name))
	return string(text), err
}

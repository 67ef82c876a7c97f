//go:build !released

package pocket

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"rillkey/scoring/wholefile"
	"rillkey/taxa/wording"
)

// module is the name of the program's source, which the page is built from.
const module = "rillkey"

// offline keeps Go from asking the network for modules, for other versions of itself or
// for what else a folder of unknown origin may name.
var offline = []string{"GOPROXY=off", "GONOPROXY=none", "GOVCS=*:off"}

// inlined are the packages whose calls the compiler puts in place, as .ci/release has them
// too. Without that what is packed is an eighth smaller; in these, which every step of the
// start goes through, it is kept: a browser compiles each function when it is first called.
var inlined = []string{
	"runtime/...", "internal/...", "bytes", "slices", "strconv", "strings", "sync", "unicode/...", "rillkey/taxa/authored",
}

// BuildProgram builds the program for browsers from the source in the folder dir, or above
// it, with the Go at hand; what it takes is a few seconds, a minute the first time. The
// network is not asked. What run starts must end with this program, whose scratch it
// then leaves to be removed.
func BuildProgram(ctx context.Context, dir string, run func(*exec.Cmd) error) (Program, error) {
	root, err := source(ctx, dir)
	if err != nil {
		return Program{}, err
	}
	scratch, remove, err := wholefile.ScratchFolder(os.TempDir())
	if err != nil {
		return Program{}, err
	}
	defer remove()
	out := filepath.Join(scratch, "page.wasm")
	args := []string{"build", "-trimpath", "-gcflags=all=-l"}
	for _, packages := range inlined {
		args = append(args, "-gcflags="+packages+"=")
	}
	build := exec.CommandContext(ctx, "go", append(args, "-ldflags=-s -w", "-o", out, "./cmd/rillkey/pocket/browser")...)
	var said bytes.Buffer
	build.Dir, build.Stdout, build.Stderr = root, &said, &said
	build.Env = append(append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOTMPDIR="+scratch), offline...)
	if err := run(build); err != nil {
		return Program{}, wording.Errorf("the page's program could not be built: %w: %s", err, bytes.TrimSpace(said.Bytes()))
	}
	wasm, err := os.ReadFile(out)
	if err != nil {
		return Program{}, err
	}
	runner, err := goFile(ctx, filepath.Join("lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return Program{}, err
	}
	return pack(wasm, runner)
}

// errNoSource means that there is neither a page inside this program nor what it is
// built from.
var errNoSource = wording.NewError("this program has no page for phones inside, and builds one only in the folder of its own source, " +
	"with Go at hand; " +
	"released programs have it inside")

func source(ctx context.Context, dir string) (string, error) {
	ask := exec.CommandContext(ctx, "go", "list", "-m", "-f", "{{.Path}} {{.Dir}}")
	ask.Dir, ask.Env = dir, append(os.Environ(), offline...)
	said, err := ask.Output()
	path, root, _ := strings.Cut(strings.TrimSpace(string(said)), " ")
	if err != nil || path != module {
		return "", errNoSource
	}
	return root, nil
}

// goFile reads a file of the Go distribution.
func goFile(ctx context.Context, name string) (string, error) {
	ask := exec.CommandContext(ctx, "go", "env", "GOROOT")
	ask.Env = append(os.Environ(), offline...)
	root, err := ask.Output()
	if err != nil {
		return "", err
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), name))
	return string(text), err
}

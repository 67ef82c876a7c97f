// Command rillkey names a stream animal by questions a beginner can answer,
// keeps the tally of a sampling visit, and grades the visit or says why it
// cannot.
//
// This is the only part of the program that meets a person. Prompts go to the
// terminal, results to standard output, what went wrong to standard error.
package main

import (
	"crypto/rand"
	"os"
	"runtime"
	"runtime/debug"
	"time"

	"github.com/charmbracelet/x/term"
)

func main() { os.Exit(start(os.Args[1:])) }

// start runs the program on the real world.
func start(args []string) int {
	collectLater()
	width, height, err := term.GetSize(os.Stdout.Fd())
	if err != nil || width < 1 || height < 1 {
		width, height = 80, 24
	}
	defer keepWindow()
	return run(args, world{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		now: time.Now, random: rand.Reader, env: environment(),
		screen: term.IsTerminal(os.Stdin.Fd()) && term.IsTerminal(os.Stdout.Fd()),
		width:  width, height: height, errScreen: term.IsTerminal(os.Stderr.Fd()),
		leaving: newLeaving(),
	})
}

// collectLater has the first collection of garbage at 16 MB, not at 4: what a command
// reads at its start it keeps, and to go through it meanwhile took a third of the time
// of a short one. From then on it is as usual.
func collectLater() {
	const atFirst = 400 // percent
	if os.Getenv("GOGC") != "" {
		return
	}
	usual := debug.SetGCPercent(atFirst)
	runtime.AddCleanup(new(*int), func(usual int) {
		if now := debug.SetGCPercent(usual); now != atFirst {
			debug.SetGCPercent(now) // a command that reads much said otherwise
		}
	}, usual)
}

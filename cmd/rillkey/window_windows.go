package main

import (
	"bufio"
	"fmt"
	"os"

	"github.com/inconshreveable/mousetrap"
	"golang.org/x/sys/windows"

	"rillkey/taxa/wording"
)

// environment is that of the process. A console that takes the signs by which screens
// are drawn is given the name that other systems give theirs.
func environment() func(name string) string {
	draws := takesSigns(os.Stdout) && takesSigns(os.Stderr)
	return func(name string) string {
		value := os.Getenv(name)
		if name == "TERM" && value == "" && draws {
			return "windows"
		}
		return value
	}
}

// takesSigns has a console take them; what is none needs nothing.
func takesSigns(f *os.File) bool {
	var mode uint32
	console := windows.Handle(f.Fd())
	if windows.GetConsoleMode(console, &mode) != nil {
		return true
	}
	return windows.SetConsoleMode(console, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING) == nil
}

// keepWindow lets somebody read, who started the program by a double click, before its
// window goes.
func keepWindow() {
	if mousetrap.StartedByExplorer() {
		fmt.Println(wording.Text("This program is typed in a terminal: in the folder of your visits, right click, \"Open in Terminal\". " +
			"Enter closes this window."))
		_, _ = bufio.NewReader(os.Stdin).ReadString('\n') // or its end
	}
}

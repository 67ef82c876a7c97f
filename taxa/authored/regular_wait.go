//go:build !js

package authored

import "syscall"

// noWait keeps opening a pipe from waiting for its other end.
const noWait = syscall.O_NONBLOCK

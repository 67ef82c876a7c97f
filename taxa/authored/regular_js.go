package authored

// noWait is nothing in a browser, which has no pipes.
const noWait = 0

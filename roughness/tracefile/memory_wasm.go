package tracefile

// inBrowser says that the program shares an address space of 32 bits, whatever the size of its int.
const inBrowser = true

/** Go's own loader, copied from the Go that compiled the module; it puts the class Go on the global object. */
export {};

//go:build !wasm

package tracefile

const inBrowser = false

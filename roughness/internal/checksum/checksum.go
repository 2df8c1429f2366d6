// Package checksum has the two checksums of files and heights, MD5 (RFC 1321) and SHA-256 (FIPS 180-4). They are those of Go's library; as
// WebAssembly they are its own, because the library brings block ciphers and generators of random numbers with them, which are 20 kB of the page.
package checksum

import (
	"encoding/binary"
	"io"
	"math"
	"math/bits"
	"sync"
)

// A Hash makes the checksum of what is written to it; Write never fails.
type Hash interface {
	io.Writer
	Sum(b []byte) []byte // appends the checksum of all that was written so far
}

// Of is the checksum of b.
func Of(h Hash, b []byte) []byte {
	h.Write(b)
	return h.Sum(nil)
}

// A digest works on blocks of 64 bytes, of which the last ones hold a 1 bit, zeros, and the number of bits.
type digest struct {
	state []uint32
	block [64]byte
	taken uint64 // bytes
	big   bool   // the first byte of a word counts most
	mix   func(state []uint32, m *[16]uint32)
}

func ownMD5() Hash {
	return &digest{state: []uint32{0x67452301, 0xefcdab89, 0x98badcfe, 0x10325476}, mix: mixMD5}
}

func ownSHA256() Hash {
	d := &digest{big: true, mix: mixSHA256}
	for _, p := range primes(8) {
		d.state = append(d.state, fraction(math.Sqrt(p)))
	}
	return d
}

// Write is that of [io.Writer].
func (d *digest) Write(b []byte) (int, error) {
	for rest := b; len(rest) > 0; {
		n := copy(d.block[d.taken%64:], rest)
		rest, d.taken = rest[n:], d.taken+uint64(n)
		if d.taken%64 > 0 {
			continue
		}
		var m [16]uint32
		for i := range m {
			if m[i] = binary.LittleEndian.Uint32(d.block[4*i:]); d.big {
				m[i] = bits.ReverseBytes32(m[i])
			}
		}
		d.mix(d.state, &m)
	}
	return len(b), nil
}

// Sum is that of [Hash].
func (d *digest) Sum(b []byte) []byte {
	last := *d
	last.state = append([]uint32(nil), d.state...)
	tail := append([]byte{0x80}, make([]byte, (64+55-d.taken%64)%64)...)
	var order binary.AppendByteOrder = binary.LittleEndian
	if d.big {
		order = binary.BigEndian
	}
	last.Write(order.AppendUint64(tail, 8*d.taken))
	for _, v := range last.state {
		b = order.AppendUint32(b, v)
	}
	return b
}

// sines are the constants of RFC 1321, 3.4.
var sines = sync.OnceValue(func() (t [64]uint32) {
	for i := range t {
		t[i] = uint32(math.Abs(math.Sin(float64(i+1))) * (1 << 32))
	}
	return t
})

var turns = [4][4]int{{7, 12, 17, 22}, {5, 9, 14, 20}, {4, 11, 16, 23}, {6, 10, 15, 21}}

func mixMD5(state []uint32, m *[16]uint32) {
	t := sines()
	a, b, c, d := state[0], state[1], state[2], state[3]
	for i, k := range t {
		var f uint32
		var g int
		switch i / 16 {
		case 0:
			f, g = b&c|^b&d, i
		case 1:
			f, g = b&d|c&^d, 5*i+1
		case 2:
			f, g = b^c^d, 3*i+5
		default:
			f, g = c^(b|^d), 7*i
		}
		a, b, c, d = d, b+bits.RotateLeft32(a+f+k+m[g%16], turns[i/16][i%4]), b, c
	}
	add(state, a, b, c, d)
}

// cubes are the constants of FIPS 180-4, 4.2.2.
var cubes = sync.OnceValue(func() (k [64]uint32) {
	for i, p := range primes(len(k)) {
		k[i] = fraction(math.Cbrt(p))
	}
	return k
})

func mixSHA256(state []uint32, m *[16]uint32) {
	turn := func(x uint32, i, j, k int) uint32 {
		return bits.RotateLeft32(x, -i) ^ bits.RotateLeft32(x, -j) ^ bits.RotateLeft32(x, -k)
	}
	var w [64]uint32
	copy(w[:], m[:])
	for i := 16; i < len(w); i++ {
		x, y := w[i-15], w[i-2]
		w[i] = w[i-16] + (bits.RotateLeft32(x, -7) ^ bits.RotateLeft32(x, -18) ^ x>>3) + w[i-7] + (bits.RotateLeft32(y, -17) ^ bits.RotateLeft32(y, -19) ^ y>>10)
	}
	a, b, c, d, e, f, g, h := state[0], state[1], state[2], state[3], state[4], state[5], state[6], state[7]
	for i, k := range cubes() {
		t := h + turn(e, 6, 11, 25) + (e&f ^ ^e&g) + k + w[i]
		a, b, c, d, e, f, g, h = t+turn(a, 2, 13, 22)+(a&b^a&c^b&c), a, b, c, d+t, e, f, g
	}
	add(state, a, b, c, d, e, f, g, h)
}

func add(state []uint32, more ...uint32) {
	for i, v := range more {
		state[i] += v
	}
}

// fraction has the first 32 bits behind the point.
func fraction(x float64) uint32 { return uint32((x - math.Floor(x)) * (1 << 32)) }

// primes are the first n.
func primes(n int) (list []float64) {
next:
	for i := 2.0; len(list) < n; i++ {
		for _, p := range list {
			if math.Mod(i, p) == 0 {
				continue next
			}
		}
		list = append(list, i)
	}
	return list
}

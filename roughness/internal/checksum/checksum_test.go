package checksum

import (
	"bytes"
	"crypto/md5"
	"crypto/sha256"
	"encoding/hex"
	"math/rand/v2"
	"testing"
)

// Each length of the last block, and each way of cutting, gives what Go's library gives.
func TestOwn(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 400 {
		b := make([]byte, n)
		for i := range b {
			b[i] = byte(r.Uint32())
		}
		five, two := md5.Sum(b), sha256.Sum256(b)
		for _, h := range []struct {
			own  Hash
			want []byte
		}{{ownMD5(), five[:]}, {ownSHA256(), two[:]}, {MD5(), five[:]}, {SHA256(), two[:]}} {
			for rest := b; len(rest) > 0; {
				k := 1 + r.IntN(min(len(rest), 100))
				if got, err := h.own.Write(rest[:k]); got != k || err != nil {
					t.Fatal(got, err)
				}
				h.own.Sum(nil) // changes nothing
				rest = rest[k:]
			}
			if got := h.own.Sum([]byte{1}); !bytes.Equal(got[1:], h.want) || got[0] != 1 {
				t.Fatalf("%d bytes: % x, want % x", n, got, h.want)
			}
		}
	}
}

// "abc": RFC 1321, A.5, and the example of FIPS 180-4 that NIST publishes.
func TestPublished(t *testing.T) {
	for _, c := range []struct {
		own  Hash
		want string
	}{{ownMD5(), "900150983cd24fb0d6963f7d28e17f72"}, {ownSHA256(), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}} {
		if got := hex.EncodeToString(Of(c.own, []byte("abc"))); got != c.want {
			t.Error(got)
		}
	}
}

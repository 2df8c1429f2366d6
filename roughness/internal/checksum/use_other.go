//go:build !js

package checksum

import (
	"crypto/md5"
	"crypto/sha256"
)

// MD5 starts a checksum of 16 bytes.
func MD5() Hash { return md5.New() }

// SHA256 starts a checksum of 32 bytes.
func SHA256() Hash { return sha256.New() }

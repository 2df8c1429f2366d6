package checksum

// MD5 starts a checksum of 16 bytes.
func MD5() Hash { return ownMD5() }

// SHA256 starts a checksum of 32 bytes.
func SHA256() Hash { return ownSHA256() }

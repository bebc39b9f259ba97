//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package sqlite

import "os"

// Where files cannot be locked this way, SQLite's own locks are all there is:
// as safe, but programs may wait longer for their turn.

func lockNow(*os.File) bool { return true }

func lockWait(*os.File) error { return nil }

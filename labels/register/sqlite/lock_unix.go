//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package sqlite

import (
	"os"
	"syscall"
)

// lockNow locks f if nobody else has it locked.
func lockNow(f *os.File) bool {
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}

// lockWait waits until f is locked.
func lockWait(f *os.File) error {
	for {
		if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX); err != syscall.EINTR {
			return err
		}
	}
}

//go:build unix

package keep_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"chablon/cmd/internal/keep"
)

// Files get what the umask leaves of 0666 (POSIX.1-2017, open and umask).
func TestModes(t *testing.T) {
	for mask, want := range map[int]os.FileMode{0o077: 0o600, 0o022: 0o644, 0o002: 0o664} {
		dir := filepath.Join(t.TempDir(), "out")
		old := syscall.Umask(mask)
		err := save(keep.Machine{}, dir, "day", says("a.pdf", "a"))
		syscall.Umask(old)
		must(t, err)
		for _, name := range []string{"a.pdf", "papers.sha256"} {
			info, err := os.Stat(filepath.Join(dir, name))
			must(t, err)
			if got := info.Mode().Perm(); got != want {
				t.Errorf("umask %o: %s has %o, want %o", mask, name, got, want)
			}
		}
		info, err := os.Stat(dir)
		must(t, err)
		if got := info.Mode().Perm(); got != 0o777&^os.FileMode(mask) {
			t.Errorf("umask %o: the folder has %o", mask, got)
		}
	}
}

package keep

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"chablon/cmd/internal/usage"
)

// TestRevisionTooLarge: what git gives is read up to a bound.
func TestRevisionTooLarge(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is not on this machine")
	}
	dir := t.TempDir()
	big := filepath.Join(dir, "big")
	if err := os.WriteFile(big, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(big, maxRevision+1); err != nil {
		t.Fatal(err)
	}
	var line *usage.Error
	if data, err := git(dir, "diff", "--no-index", "--text", os.DevNull, big); !errors.As(err, &line) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
}

package print

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"chablon/labels/unit"
)

// TestNoGit: a machine without git says so, and still reads folders.
func TestNoGit(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "shop")
	if _, err := New(dir); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", "")
	var line *LineError
	if _, err := OpenRevision(dir+"@HEAD", unit.Date{}, time.Time{}); !errors.As(err, &line) || line.Say == "" {
		t.Errorf("without git: %v", err)
	}
	if _, err := OpenRevision(dir, unit.Date{Year: 2026, Month: 3, Day: 17}, time.Time{}); err != nil {
		t.Errorf("a folder: %v", err)
	}
}

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
	var line *LineError
	if data, err := git(dir, "diff", "--no-index", "--text", os.DevNull, big); !errors.As(err, &line) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
}

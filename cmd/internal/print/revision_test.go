package print

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"chablon/cmd/internal/usage"
	"chablon/labels/unit"
)

// TestNoGit: a machine without git says so, and still reads folders.
func TestNoGit(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "shop")
	if _, err := New(dir, true); err != nil {
		t.Fatal(err)
	}
	signatures(t, dir)
	t.Setenv("PATH", "")
	var line *usage.Error
	if _, err := OpenRevision(dir+"@HEAD", unit.Date{}, time.Time{}); !errors.As(err, &line) || line.Hint == "" {
		t.Errorf("without git: %v", err)
	}
	if _, err := OpenRevision(dir, unit.Date{Year: 2026, Month: 3, Day: 17}, time.Time{}); err != nil {
		t.Errorf("a folder: %v", err)
	}
}

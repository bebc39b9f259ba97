package keep

import (
	"context"
	"path/filepath"

	"chablon/labels/register/sqlite"
	"chablon/labels/trace"
)

// Books are the two books of a kitchen in one file: what was printed, and what
// happened to the food.
type Books = trace.Books

// Book opens the register beside the shop in dir. Where there is none the
// refusal is [register.Missing].
func Book(ctx context.Context, dir string) (Books, error) {
	return sqlite.Open(ctx, filepath.Join(dir, sqlite.FileName))
}

// Begin begins an empty register beside the shop in dir, where none may be.
func Begin(ctx context.Context, dir string) (Books, error) {
	return sqlite.Begin(ctx, filepath.Join(dir, sqlite.FileName))
}

package sqlite

import (
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"chablon/labels/register"
)

// raw opens the file without any of our care.
func raw(tb testing.TB, path string) *sql.DB {
	tb.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = db.Close() })
	return db
}

func run(tb testing.TB, db *sql.DB, query string) {
	tb.Helper()
	if _, err := db.Exec(query); err != nil {
		tb.Fatal(err)
	}
}

// refused ends the test unless err is a refusal by rule that a cook can act on.
func refused(tb testing.TB, what string, err error, rule register.Rule) {
	tb.Helper()
	var e *register.Error
	if !errors.As(err, &e) || e.Rule != rule || e.Hint() == "" {
		tb.Fatalf("%s: got %v (%s), want %s with a hint", what, err, register.RuleOf(err), rule)
	}
}

// filled is a closed register with numbers 1 to 500 given in blocks, as bytes.
func filled(tb testing.TB) []byte {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), FileName)
	r := begin(tb, path)
	for i := range 50 {
		w := register.Want{Series: register.Series{Name: "cartons", First: 1}, N: 10, At: start, For: "tartlets"}
		if _, err := r.Take(context.Background(), w); err != nil {
			tb.Fatal(err)
		}
		c := register.Copy{ID: fmt.Sprint("card-", i), Version: "1", CheckWord: "MALT", N: 1, Of: 1, Place: "bench", At: start}
		if _, err := r.Post(context.Background(), c); err != nil {
			tb.Fatal(err)
		}
	}
	if err := r.Close(); err != nil {
		tb.Fatal(err)
	}
	return read(tb, path)
}

func read(tb testing.TB, path string) []byte {
	tb.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

func write(tb testing.TB, name string, data []byte) (path string) {
	tb.Helper()
	path = filepath.Join(tb.TempDir(), name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		tb.Fatal(err)
	}
	return path
}

func database(tb testing.TB, make string) []byte {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), "other.db")
	db := raw(tb, path)
	run(tb, db, make)
	if err := db.Close(); err != nil {
		tb.Fatal(err)
	}
	return read(tb, path)
}

// A file that is no sound register is refused and stays as it is.
func TestStrangeFiles(t *testing.T) {
	good := filled(t)
	all, err := readSteps()
	if err != nil {
		t.Fatal(err)
	}
	last := len(all)
	flipped := bytes.Clone(good)
	for i := 4096; i < len(flipped); i += 64 { // behind the page with the tables' names
		flipped[i] ^= 0xff
	}
	for _, c := range []struct {
		name string
		data []byte
		rule register.Rule
	}{
		{"text", []byte(strings.Repeat("flour 500 g\n", 100)), register.Foreign},
		{"one letter", []byte("x"), register.Foreign},
		{"another program's", database(t, "CREATE TABLE recipes (name TEXT)"), register.Foreign},
		{"another program's, marked", database(t, "PRAGMA application_id = 7; CREATE TABLE a (b)"), register.Foreign},
		{"no tables, yet marked", database(t, "PRAGMA user_version = 7; CREATE TABLE a (b); DROP TABLE a"), register.Foreign},
		{"newer", database(t, fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d; CREATE TABLE copies (a)", application, last+1)), register.Newer},
		{"empty", nil, register.Damaged},
		{"cut off", good[:len(good)-4096], register.Damaged},
		{"overwritten", flipped, register.Damaged},
		{"without its head", good[100:], register.Foreign},
	} {
		path := write(t, FileName, c.data)
		_, err := Open(context.Background(), path)
		refused(t, c.name, err, c.rule)
		if !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %q does not name the file", c.name, err)
		}
		if got := read(t, path); sha256.Sum256(got) != sha256.Sum256(c.data) {
			t.Errorf("%s: the file was changed", c.name)
		}
	}
}

func TestOpenAndBegin(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	_, err := Open(ctx, filepath.Join(dir, FileName))
	refused(t, "nothing there", err, register.Missing)
	_, err = Open(ctx, dir)
	refused(t, "a folder", err, register.Foreign)
	path := write(t, FileName, []byte("flour"))
	_, err = Begin(ctx, path)
	refused(t, "begun over a file", err, register.There)
	if string(read(t, path)) != "flour" {
		t.Error("the file was changed")
	}
	_, err = Begin(ctx, filepath.Join(dir, "no such folder", FileName))
	refused(t, "no folder", err, register.Unwritten)
	ended, cancel := context.WithCancel(ctx)
	cancel()
	path = filepath.Join(dir, "ended.db")
	if _, err := Begin(ended, path); !errors.Is(err, context.Canceled) {
		t.Errorf("begun with an ended context: %v", err)
	}
	if err := begin(t, path).Close(); err != nil { // nothing is in the way
		t.Error(err)
	}
}

func TestNamesOfFiles(t *testing.T) {
	for _, name := range []string{"my shop.db", "50%25.db", "a?mode=ro.db", "#1.db", "crème brûlée.db", "a&b=c;d+e.db", "file:x.db"} {
		path := filepath.Join(t.TempDir(), name)
		if err := begin(t, path).Close(); err != nil {
			t.Fatal(err)
		}
		if err := reopen(t, path).Close(); err != nil {
			t.Fatal(err)
		}
		found, err := os.ReadDir(filepath.Dir(path))
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, f := range found {
			names = append(names, f.Name())
		}
		if got, want := strings.Join(names, " "), "."+name+".lock "+name; got != want && got != name+" ."+name+".lock" {
			t.Errorf("%s leaves the files %s", name, got)
		}
	}
	t.Chdir(t.TempDir())
	if err := begin(t, "here.db").Close(); err != nil {
		t.Error(err)
	}
}

// A register of each earlier form is brought up to date with all that it holds.
func TestSteps(t *testing.T) {
	all, err := readSteps()
	if err != nil {
		t.Fatal(err)
	}
	for taken := 1; taken < len(all); taken++ {
		make := strings.Join(all[:taken], "\n") + fmt.Sprintf("; PRAGMA application_id = %d; PRAGMA user_version = %d;", application, taken) +
			`INSERT INTO copies (number, id, version, issued, check_word, size, n, m, place, paper, langs, at)
			VALUES (1, 'tartlet', '4', '', 'MALT', '', 1, 1, 'bench', '', 'en', '2026-03-17T04:30:00Z');`
		if taken > 1 {
			make += `INSERT INTO takes VALUES ('cartons', 27, 38, '2026-03-17T04:30:00Z', '');`
		}
		path := write(t, FileName, database(t, make))
		for range 2 {
			r := reopen(t, path)
			if h, err := r.head(t.Context()); err != nil || h.version != len(all) || h.application != application {
				t.Errorf("from step %d: %+v, %v", taken, h, err)
			}
			hangs, err := r.Posted(t.Context())
			if err != nil || len(hangs) != 1 || hangs[0].CheckWord != "MALT" || !hangs[0].At.Equal(start) {
				t.Errorf("from step %d: %+v, %v", taken, hangs, err)
			}
			blocks, err := r.Taken(t.Context(), "cartons")
			if err != nil || len(blocks) != min(1, taken-1) {
				t.Errorf("from step %d: %+v, %v", taken, blocks, err)
			}
			if err := r.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}

// A step that fails leaves the file at the step before it.
func TestFailedStep(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	r := begin(t, path)
	all, err := readSteps()
	if err != nil {
		t.Fatal(err)
	}
	last := len(all)
	all = append(all, "CREATE TABLE more (a)", "CREATE TABLE more (a)")
	if err := r.migrate(t.Context(), all, last); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("step %d ", last+2)) {
		t.Errorf("got %v", err)
	}
	if h, err := r.head(t.Context()); err != nil || h.version != last {
		t.Errorf("%+v, %v", h, err)
	}
	if err := r.Close(); err != nil {
		t.Error(err)
	}
	if err := reopen(t, path).Close(); err != nil {
		t.Error(err)
	}
}

// The database itself keeps what was written, whoever asks.
func TestNothingIsDeletedOrWrittenOver(t *testing.T) {
	path := write(t, FileName, filled(t))
	r := reopen(t, path)
	if _, err := r.Record(t.Context(), register.Print{Kind: "label", ID: "a", Digest: "d", Count: 1, At: start}); err != nil {
		t.Fatal(err)
	}
	if _, err := r.TakeDown(t.Context(), 1, start); err != nil {
		t.Fatal(err)
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	db := raw(t, path)
	for _, q := range []string{
		"DELETE FROM copies", "DELETE FROM takes", "DELETE FROM prints",
		"UPDATE takes SET hi = 1 WHERE lo = 1", "UPDATE prints SET batch = 'x'",
		"UPDATE copies SET place = 'x' WHERE number = 2", "UPDATE copies SET down = NULL WHERE number = 1",
		"UPDATE copies SET down = '2027-01-01T00:00:00Z' WHERE number = 1",
		"UPDATE copies SET down = '2027-01-01T00:00:00Z', version = '2' WHERE number = 2",
		"INSERT INTO takes VALUES ('cartons', 500, 501, '', '')", "INSERT INTO takes VALUES ('cartons', 1, 1, '', '')",
		"INSERT OR REPLACE INTO takes VALUES ('cartons', 1, 1, '', '')",
		"INSERT INTO takes VALUES ('new', 2, 1, '', '')", "INSERT INTO takes VALUES ('new', 0, 1, '', '')",
		"INSERT INTO takes VALUES ('new', 'one', 2, '', '')",
		"INSERT INTO copies SELECT 99, id, version, issued, check_word, size, n, m, place, paper, langs, at, down, by FROM copies WHERE number = 2",
	} {
		if _, err := db.Exec(q); err == nil {
			t.Errorf("the database takes %s", q)
		}
	}
}

// What a call returned is on the disk: sqlite.org/pragma.html says of
// synchronous = FULL (2) in WAL mode that no commit is lost to a power cut.
func TestDurable(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	r := begin(t, path)
	var mode string
	var level int
	err := errors.Join(r.db.QueryRow("PRAGMA journal_mode").Scan(&mode), r.db.QueryRow("PRAGMA synchronous").Scan(&level))
	if err != nil || mode != "wal" || level != 2 {
		t.Errorf("journal mode %s, synchronous %d, %v", mode, level, err)
	}
	w := register.Want{Series: register.Series{Name: "x", First: 1}, N: 7, At: start}
	if _, err := r.Take(t.Context(), w); err != nil {
		t.Fatal(err)
	}
	// What lies on the disk now is what a machine finds that stopped here.
	copied := write(t, FileName, read(t, path))
	if err := os.WriteFile(copied+"-wal", read(t, path+"-wal"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	after := reopen(t, copied)
	defer after.Close()
	if got, err := after.Take(t.Context(), w); err != nil || got.From != 8 {
		t.Errorf("after the stop: %+v, %v", got, err)
	}
}

// A disk that takes nothing more refuses, and loses nothing.
func TestDiskFaults(t *testing.T) {
	for name, limit := range map[string]string{
		"read only": "PRAGMA query_only = 1",
		"full":      "PRAGMA max_page_count = 1",
	} {
		path := write(t, FileName, filled(t))
		r := reopen(t, path)
		run(t, r.db, limit)
		w := register.Want{Series: register.Series{Name: "cartons"}, N: 1, At: start}
		var err error
		for range 200 { // until the pages that are there are full
			if _, err = r.Take(t.Context(), w); err != nil {
				break
			}
		}
		refused(t, name, err, register.Unwritten)
		blocks, err := r.Taken(t.Context(), "cartons")
		if err != nil || len(blocks) < 50 {
			t.Errorf("%s: %d blocks, %v", name, len(blocks), err)
		}
		if err := r.Close(); err != nil {
			t.Error(err)
		}
		r = reopen(t, path)
		if got, err := r.Take(t.Context(), w); err != nil || got.From != blocks[len(blocks)-1].To+1 {
			t.Errorf("%s, afterwards: %+v, %v", name, got, err)
		}
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	}
}

func TestNoRight(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("the superuser may write everywhere")
	}
	path := write(t, FileName, filled(t))
	for _, c := range []struct {
		name         string
		folder, file os.FileMode
	}{{"folder", 0o500, 0o644}, {"file", 0o700, 0o400}, {"folder and file", 0o500, 0o400}} {
		if err := errors.Join(os.Chmod(path, c.file), os.Chmod(filepath.Dir(path), c.folder)); err != nil {
			t.Fatal(err)
		}
		r, err := Open(t.Context(), path)
		if err == nil {
			_, err = r.Take(t.Context(), register.Want{Series: register.Series{Name: "cartons"}, N: 1, At: start})
			_ = r.Close()
		}
		refused(t, c.name, err, register.Unwritten)
	}
	_, err := Begin(t.Context(), filepath.Join(filepath.Dir(path), "new.db"))
	refused(t, "begun", err, register.Unwritten)
	if err := os.Chmod(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
}

// Whoever waits for another program gives up in the end, and says why.
func TestBusy(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	r := begin(t, path)
	defer r.Close()
	w := register.Want{Series: register.Series{Name: "x", First: 1}, N: 1, At: start}

	other := newTurn(r.turn.path)
	release, err := other.take(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	r.wait = 50 * time.Millisecond
	_, err = r.Take(t.Context(), w)
	refused(t, "another holds the lock file", err, register.Busy)
	soon, cancel := context.WithTimeout(t.Context(), 10*time.Millisecond)
	defer cancel()
	if _, err := r.Take(soon, w); !errors.Is(err, context.DeadlineExceeded) || register.RuleOf(err) != "" {
		t.Errorf("the caller's own deadline: %v", err)
	}
	if _, err := r.Taken(t.Context(), "x"); err != nil {
		t.Errorf("reading needs no turn: %v", err)
	}
	release()
	r.wait = patience
	if got, err := r.Take(t.Context(), w); err != nil || got.From != 1 {
		t.Errorf("afterwards: %+v, %v", got, err)
	}

	db := raw(t, path) // a program that knows nothing of turns
	run(t, db, "BEGIN IMMEDIATE")
	r.wait = 50 * time.Millisecond
	_, err = r.Take(t.Context(), w)
	refused(t, "another writes", err, register.Busy)
}

// headFields are the offsets of the fields of an SQLite file's head
// (sqlite.org/fileformat2.html, section 1.3), and where the next one begins.
func headFields() []int {
	return []int{0, 16, 18, 19, 20, 21, 22, 23, 24, 28, 32, 36, 40, 44, 48, 52, 56, 60, 64, 68, 72, 92, 96, 100}
}

// Whatever stands in a field of the head, the register is refused with a hint,
// or all that was given is still known.
func TestDamagedHead(t *testing.T) {
	good := filled(t)
	fields := headFields()
	for i, at := range fields[:len(fields)-1] {
		for _, b := range []byte{0x00, 0x01, 0x7f, 0x80, 0xff} {
			openDamaged(t, good, at, bytes.Repeat([]byte{b}, fields[i+1]-at))
		}
	}
}

// openDamaged opens a register with some bytes written over.
func openDamaged(t *testing.T, good []byte, at int, over []byte) {
	t.Helper()
	data := bytes.Clone(good)
	copy(data[at:100], over)
	path := write(t, FileName, data)
	r, err := Open(t.Context(), path)
	if err != nil {
		var e *register.Error
		if !errors.As(err, &e) || e.Hint() == "" || !strings.Contains(err.Error(), path) {
			t.Errorf("%x at %d: %v has no hint, or does not name the file", over, at, err)
		}
		return
	}
	defer r.Close()
	blocks, err := r.Taken(t.Context(), "cartons")
	if err != nil || len(blocks) != 50 {
		t.Errorf("%x at %d: %d blocks, %v", over, at, len(blocks), err)
	}
	got, err := r.Take(t.Context(), register.Want{Series: register.Series{Name: "cartons", First: 1}, N: 1, At: start})
	var e *register.Error
	if err == nil && got.From != 501 || err != nil && (!errors.As(err, &e) || e.Hint() == "") {
		t.Errorf("%x at %d: %+v, %v", over, at, got, err)
	}
}

// FuzzHead writes over the head of a register.
func FuzzHead(f *testing.F) {
	good := filled(f)
	for _, at := range headFields()[:23] {
		f.Add(byte(at), []byte{0xff, 0xff, 0xff, 0xff})
	}
	f.Fuzz(func(t *testing.T, at byte, over []byte) { openDamaged(t, good, int(at)%100, over) })
}

// A register whose rows or whose neighbour on the disk are not what they should
// be is refused with a hint.
func TestDamagedElsewhere(t *testing.T) {
	for name, c := range map[string]struct {
		damage func(path string) error
		rule   register.Rule
	}{
		"tables that its head does not know": {func(path string) error { return runOn(path, "PRAGMA user_version = 0") }, register.Damaged},
		"a step not taken":                   {func(path string) error { return runOn(path, "PRAGMA user_version = 1") }, register.Damaged},
		"a form below none":                  {func(path string) error { return runOn(path, "PRAGMA user_version = -1") }, register.Damaged},
		"a moment that is none": {func(path string) error {
			return runOn(path, "DROP TRIGGER takes_stay; UPDATE takes SET at = 'noon'")
		}, register.Damaged},
		"a table gone": {func(path string) error { return runOn(path, "DROP TABLE takes") }, register.Damaged},
		"a folder in place of lock": {func(path string) error {
			return os.Mkdir(filepath.Join(filepath.Dir(path), "."+FileName+".lock"), 0o777)
		}, register.Unwritten},
	} {
		path := write(t, FileName, filled(t))
		if err := c.damage(path); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		r, err := Open(t.Context(), path)
		if err == nil {
			_, err = r.Taken(t.Context(), "cartons")
			_ = r.Close()
		}
		refused(t, name, err, c.rule)
	}
}

// runOn runs SQL on the file without any of our care.
func runOn(path, query string) error {
	db, err := sql.Open("sqlite", path)
	if err != nil {
		return err
	}
	_, err = db.Exec(query)
	return errors.Join(err, db.Close())
}

// FuzzOpen damages a register: it is refused, or it can be read and used.
func FuzzOpen(f *testing.F) {
	good := filled(f)
	f.Add(uint32(0), []byte("SQLite format 4"))
	f.Add(uint32(18866), []byte("0")) // a number in a row
	f.Add(uint32(18), []byte{9, 9})
	f.Add(uint32(4096), []byte{0xff, 0xff, 0xff, 0xff})
	for i := uint32(0); int(i) < len(good); i += 997 {
		f.Add(i, []byte{0x80})
	}
	f.Fuzz(func(t *testing.T, at uint32, over []byte) {
		data := bytes.Clone(good)
		copy(data[int(at)%len(data):], over)
		path := write(t, FileName, data)
		r, err := Open(t.Context(), path)
		if err != nil {
			var e *register.Error
			if !errors.As(err, &e) || e.Hint() == "" || !strings.Contains(err.Error(), path) {
				t.Errorf("%v: has no hint, or does not name the file", err)
			}
			return
		}
		blocks, err := r.Taken(t.Context(), "cartons")
		got, err2 := r.Take(t.Context(), register.Want{Series: register.Series{Name: "cartons", First: 501}, N: 1, At: start})
		if n := len(blocks); err == nil && err2 == nil && n > 0 && got.From <= blocks[n-1].To {
			t.Errorf("%d was given before, in %+v", got.From, blocks[n-1])
		}
		_ = r.Close() // a damaged file may not close in peace
	})
}

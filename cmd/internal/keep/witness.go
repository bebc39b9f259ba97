package keep

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Witness remembers, outside of every shop, the highest number of each series
// that was given on this machine, and from which folder. A print book that knows
// less was copied, fetched from a backup, or begun anew, and would give numbers a
// second time. The zero Witness remembers nothing.
type Witness struct{ file string }

// Seen is what a witness knows of one series.
type Seen struct {
	Last   int64  `json:"last"`
	Folder string `json:"folder"`
	Day    string `json:"day,omitempty"` // ISO 8601; when it was given
}

// WitnessIn is the witness in the state folder of the user, such as
// ~/.local/state; none when dir is empty.
func WitnessIn(dir string) Witness {
	if dir == "" {
		return Witness{}
	}
	return Witness{filepath.Join(dir, "chablon", "numbers.json")}
}

// Of is what is known of a series; nothing where there is no witness yet. The
// error is one of the machine.
func (w Witness) Of(series string) (Seen, error) {
	all, err := w.read()
	return all[series], err
}

func (w Witness) read() (map[string]Seen, error) {
	all := map[string]Seen{}
	if w.file == "" {
		return all, nil
	}
	data, err := os.ReadFile(w.file)
	if errors.Is(err, fs.ErrNotExist) {
		return all, nil
	}
	if err == nil {
		err = json.Unmarshal(data, &all)
	}
	if err != nil {
		return nil, fmt.Errorf("cannot read which numbers were given, %s: %w", w.file, err)
	}
	return all, nil
}

// Saw notes that numbers up to the last of each series were given in a shop's
// folder on a day. It never goes back.
func (w Witness) Saw(disk Disk, last map[string]int64, folder, day string) error {
	if w.file == "" || len(last) == 0 {
		return nil
	}
	dir := filepath.Dir(w.file)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	unlock, err := disk.Lock(w.file + ".lock")
	if err != nil {
		return err
	}
	defer unlock()
	all, err := w.read()
	if err != nil {
		return err
	}
	if abs, e := filepath.Abs(folder); e == nil {
		folder = abs
	}
	news := false
	for series, n := range last {
		if all[series].Last < n {
			all[series], news = Seen{n, folder, day}, true
		}
	}
	if !news {
		return nil
	}
	data, err := json.MarshalIndent(all, "", "  ")
	if err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, ".numbers-*")
	if err != nil {
		return err
	}
	_, err = f.Write(append(data, '\n'))
	if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
		err = os.Rename(f.Name(), w.file)
	}
	if err != nil {
		_ = os.Remove(f.Name())
	}
	return err
}

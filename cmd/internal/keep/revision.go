package keep

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"strings"

	"chablon/cmd/internal/usage"
)

// What a revision may have, far above any shop.
const (
	maxRevision = 64 << 20 // bytes
	maxObjects  = 20_000   // files
	maxObject   = 9 << 20  // bytes read of one file; a picture has 8 MB at most, other files 1 MB
)

// CutRevision cuts FOLDER@REVISION at the first @ that has a folder before it;
// with nothing before it, the folder is the one that the command is given in.
// It gives false for what is no revision: a folder may have an @ in its name.
func CutRevision(s string) (dir, rev string, ok bool) {
	if _, err := os.Stat(s); err == nil || !strings.Contains(s, "@") {
		return s, "", false
	}
	for i := range len(s) {
		if s[i] != '@' {
			continue
		}
		left := s[:i]
		if left == "" {
			left = "."
		}
		if info, err := os.Stat(left); err == nil && info.IsDir() {
			return left, s[i+1:], true
		}
	}
	dir, rev, _ = strings.Cut(s, "@")
	return dir, rev, dir != ""
}

// Revision is what the folder dir held in a revision that git keeps of it, in
// memory: its YAML files in full, the names alone of all others. No program
// that the folder's own git settings name is run. The error is a
// [usage.Error] or a fault of the machine.
func Revision(dir, rev string) (fs.FS, error) {
	if rev == "" || strings.HasPrefix(rev, "-") || strings.HasPrefix(rev, "^") || strings.ContainsAny(rev, "\n\x00") {
		return nil, usage.Errorf("write it like "+dir+"@HEAD~1", "%q is not a revision", rev)
	}
	if _, err := ask(dir, "rev-parse", "--git-dir"); err != nil {
		return nil, gitSays(err, "git keeps no revisions of "+dir, "compare with a copy of the folder instead, or begin to keep it in git")
	}
	commit, err := ask(dir, "rev-parse", "--verify", "--quiet", "--end-of-options", rev+"^{commit}")
	if err != nil {
		return nil, gitSays(err, fmt.Sprintf("there is no revision %q of %s", rev, dir), "git log --oneline lists the revisions")
	}
	tree, err := ask(dir, "rev-parse", "--verify", "--quiet", strings.TrimSpace(string(commit))+":./")
	if err != nil {
		return nil, gitSays(err, fmt.Sprintf("%s was not there in the revision %q", dir, rev), "name a later one")
	}
	all, err := objects(dir, strings.TrimSpace(string(tree)))
	if err == nil {
		return pack(dir, all)
	}
	return nil, gitSays(err, fmt.Sprintf("git cannot read the revision %q of %s", rev, dir), "git fsck tells more")
}

// pack puts files of a revision into an archive in memory, which is a file
// system. Links stay links, so that they are refused as in any other shop.
func pack(dir string, all []object) (fs.FS, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	put := func(o object, data []byte) error {
		h := &zip.FileHeader{Name: o.path}
		h.SetMode(0o644)
		if o.mode == "120000" {
			h.SetMode(fs.ModeSymlink | 0o777)
		}
		f, err := w.CreateHeader(h)
		if err == nil {
			_, err = f.Write(data)
		}
		return err
	}
	var read []object
	for _, o := range all {
		if path.Ext(o.path) == ".yaml" || path.Dir(o.path) == "pictures" || path.Dir(o.path) == "brand" {
			read = append(read, o)
		} else if err := put(o, nil); err != nil {
			return nil, err
		}
	}
	if err := errors.Join(contents(dir, read, put), w.Close()); err != nil {
		return nil, gitSays(err, "git cannot read the files of that revision", "git fsck tells more")
	}
	return zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
}

// gitSays tells a cook why git gave nothing: it is missing, or it refused for
// the reason that its exit status stands for here.
func gitSays(err error, msg, hint string) error {
	var refused *exec.ExitError
	var told *usage.Error
	switch {
	case errors.As(err, &told):
		return told
	case errors.Is(err, exec.ErrNotFound):
		return usage.Errorf("have it installed, or compare with a copy of the folder", "git is not on this machine, and revisions are read with it")
	case errors.As(err, &refused):
		return &usage.Error{Msg: msg, Hint: hint}
	}
	return err
}

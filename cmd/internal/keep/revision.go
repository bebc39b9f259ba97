package keep

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os/exec"
	"strings"

	"chablon/cmd/internal/usage"
)

// maxRevision is how many bytes a revision of a shop may have, packed.
const maxRevision = 64 << 20

// Revision is what the folder dir held in a revision that git keeps of it, in
// memory. The error is a [usage.Error] or a fault of the machine.
func Revision(dir, rev string) (fs.FS, error) {
	if rev == "" || strings.HasPrefix(rev, "-") {
		return nil, usage.Errorf("write it like "+dir+"@HEAD~1", "%q is not a revision", rev)
	}
	if _, err := git(dir, "rev-parse", "--git-dir"); err != nil {
		return nil, gitSays(err, "git keeps no revisions of "+dir, "compare with a copy of the folder instead, or begin to keep it in git")
	}
	commit, err := git(dir, "rev-parse", "--verify", "--quiet", rev+"^{commit}")
	if err != nil {
		return nil, gitSays(err, fmt.Sprintf("there is no revision %q of %s", rev, dir), "git log --oneline lists the revisions")
	}
	packed, err := git(dir, "archive", "--format=zip", strings.TrimSpace(string(commit)))
	if err != nil {
		return nil, gitSays(err, fmt.Sprintf("%s was not there in the revision %q", dir, rev), "name a later one")
	}
	z, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		return nil, fmt.Errorf("cannot read what git gives of %s: %w", dir, err)
	}
	return z, nil
}

// git runs git in a folder and gives what it writes, up to maxRevision bytes.
func git(dir string, args ...string) ([]byte, error) {
	c := exec.Command("git", append([]string{"-C", dir}, args...)...)
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := c.Start(); err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(out, maxRevision+1))
	if len(data) > maxRevision || err != nil {
		_ = c.Process.Kill() // it has more to say than anybody listens to
		_ = c.Wait()
		return nil, errors.Join(err, usage.Errorf("see which folder is meant", "the revision is larger than any shop"))
	}
	return data, c.Wait()
}

// gitSays tells a cook why git gave nothing: it is missing, or it refused for
// the reason that its exit status stands for here.
func gitSays(err error, msg, hint string) error {
	var refused *exec.ExitError
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return usage.Errorf("have it installed, or compare with a copy of the folder", "git is not on this machine, and revisions are read with it")
	case errors.As(err, &refused):
		return &usage.Error{Msg: msg, Hint: hint}
	}
	return err
}

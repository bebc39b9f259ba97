package keep

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"

	"chablon/cmd/internal/usage"
)

// A folder from elsewhere brings its own .git/config, and there git may be told
// to run programs: to filter or archive files, to watch the folder, to fetch
// what is missing. So git is asked for names and bytes of objects alone
// (rev-parse, ls-tree, cat-file), which apply no filters and look at no files;
// and what is missing is never fetched.
//
// git-config and git of the git manual: core.fsmonitor, core.hooksPath,
// protocol.allow, GIT_ALLOW_PROTOCOL, GIT_NO_LAZY_FETCH, GIT_NO_REPLACE_OBJECTS.

// git makes a command of git in a folder.
func git(dir string, args ...string) *exec.Cmd {
	c := exec.Command("git", append([]string{"-C", dir, "--no-pager",
		"-c", "core.fsmonitor=false", "-c", "core.hooksPath=" + os.DevNull, "-c", "protocol.allow=never"}, args...)...)
	for _, e := range os.Environ() {
		if !strings.HasPrefix(e, "GIT_") || strings.HasPrefix(e, "GIT_CONFIG_") || strings.HasPrefix(e, "GIT_EXEC_PATH=") {
			c.Env = append(c.Env, e) // GIT_DIR and its like would lead to another folder
		}
	}
	c.Env = append(c.Env, "GIT_ALLOW_PROTOCOL=", "GIT_NO_LAZY_FETCH=1", "GIT_NO_REPLACE_OBJECTS=1", "GIT_OPTIONAL_LOCKS=0", "GIT_TERMINAL_PROMPT=0", "LC_ALL=C")
	return c
}

// ask runs git and gives what it writes, up to maxRevision bytes.
func ask(dir string, args ...string) ([]byte, error) {
	c := git(dir, args...)
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := c.Start(); err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(out, maxRevision+1))
	if len(data) > maxRevision || err != nil {
		return nil, errors.Join(err, tooLarge(), stop(c))
	}
	return data, c.Wait()
}

// stop ends a git that has more to say than anybody listens to.
func stop(c *exec.Cmd) error {
	_ = c.Process.Kill()
	_ = c.Wait()
	return nil
}

func tooLarge() error {
	return usage.Errorf("see which folder is meant", "the revision is larger than any shop")
}

// object is one file of a revision: its path, its kind and where git has it.
type object struct{ path, mode, id string }

// objects lists the files of a tree.
func objects(dir, tree string) ([]object, error) {
	data, err := ask(dir, "ls-tree", "-r", "-z", "--full-tree", tree)
	if err != nil {
		return nil, err
	}
	var out []object
	for line := range strings.SplitSeq(strings.TrimRight(string(data), "\x00"), "\x00") {
		about, path, ok := strings.Cut(line, "\t")
		f := strings.Fields(about) // mode, type, id
		if ok && len(f) == 3 && f[1] == "blob" {
			out = append(out, object{path, f[0], f[2]})
		}
	}
	if len(out) > maxObjects {
		return nil, tooLarge()
	}
	return out, nil
}

// contents calls got with the bytes of each object in turn; of one that is
// longer than any file of a shop, with its beginning.
func contents(dir string, all []object, got func(object, []byte) error) (err error) {
	c := git(dir, "cat-file", "--batch")
	var ids bytes.Buffer
	for _, o := range all {
		fmt.Fprintln(&ids, o.id)
	}
	c.Stdin = &ids
	pipe, err := c.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.Start(); err != nil {
		return err
	}
	if err := readBatch(bufio.NewReader(pipe), all, got); err != nil {
		return errors.Join(err, stop(c))
	}
	return c.Wait()
}

// readBatch reads what git cat-file --batch writes: for each object a line with
// its id, type and size, its bytes, and a line end (git-cat-file, "Batch
// output").
func readBatch(r *bufio.Reader, all []object, got func(object, []byte) error) error {
	total := 0
	for _, o := range all {
		head, err := r.ReadString('\n')
		if err != nil {
			return fmt.Errorf("git gives nothing of %s: %w", o.path, err)
		}
		var id, kind string
		var size int
		if _, err := fmt.Sscan(head, &id, &kind, &size); err != nil || id != o.id || kind != "blob" {
			return usage.Errorf("fetch it with git first, or compare with a copy of the folder", "git does not have %s of that revision", o.path)
		}
		data, err := io.ReadAll(io.LimitReader(r, int64(min(size, maxObject))))
		if err != nil {
			return err
		}
		if _, err := r.Discard(size - len(data) + 1); err != nil {
			return err
		}
		if total += size; total > maxRevision {
			return tooLarge()
		}
		if err := got(o, data); err != nil {
			return err
		}
	}
	return nil
}

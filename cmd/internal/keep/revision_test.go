package keep_test

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
)

// repo is a folder that git keeps: a shop in a folder of it, in one revision.
func repo(t *testing.T) (top, shop string) {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is not on this machine")
	}
	t.Setenv("HOME", t.TempDir())
	t.Setenv("GIT_CONFIG_NOSYSTEM", "1")
	top = t.TempDir()
	shop = filepath.Join(top, "shop")
	must(t, os.MkdirAll(filepath.Join(shop, "formulas"), 0o777))
	must(t, os.WriteFile(filepath.Join(shop, "shop.yaml"), []byte("name: x\n"), 0o666))
	must(t, os.WriteFile(filepath.Join(shop, "formulas", "a.yaml"), []byte("text: a\n"), 0o666))
	must(t, os.WriteFile(filepath.Join(shop, "photo.jpg"), []byte("large"), 0o666))
	must(t, os.Symlink("/etc/passwd", filepath.Join(shop, "formulas", "b.yaml")))
	must(t, os.MkdirAll(filepath.Join(shop, "pictures"), 0o777))
	must(t, os.WriteFile(filepath.Join(shop, "pictures", "fold.png"), []byte("dots"), 0o666))
	run(t, top, "init", "-q")
	commit(t, top)
	return top, shop
}

func run(t *testing.T, dir string, args ...string) string {
	t.Helper()
	out, err := exec.Command("git", append([]string{"-C", dir}, args...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("git %v: %v\n%s", args, err, out)
	}
	return string(out)
}

func commit(t *testing.T, dir string) {
	t.Helper()
	run(t, dir, "add", ".")
	run(t, dir, "-c", "user.name=cook", "-c", "user.email=cook@shop.example", "commit", "-q", "-m", "x")
}

// A revision holds the folder's files as they were: YAML and pictures in full,
// other files by name, links as links.
func TestRevision(t *testing.T) {
	top, shop := repo(t)
	must(t, os.WriteFile(filepath.Join(shop, "formulas", "a.yaml"), []byte("text: b\n"), 0o666))
	must(t, os.WriteFile(filepath.Join(top, "elsewhere.yaml"), []byte("x"), 0o666))
	commit(t, top)
	fsys, err := keep.Revision(shop, "HEAD~1")
	must(t, err)
	data, err := fs.ReadFile(fsys, "formulas/a.yaml")
	if err != nil || string(data) != "text: a\n" {
		t.Errorf("%q, %v", data, err)
	}
	if data, err := fs.ReadFile(fsys, "pictures/fold.png"); err != nil || string(data) != "dots" {
		t.Errorf("the picture is %q, %v", data, err)
	}
	var names []string
	must(t, fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			names = append(names, p)
		}
		return err
	}))
	if got := strings.Join(names, " "); got != "formulas/a.yaml formulas/b.yaml photo.jpg pictures/fold.png shop.yaml" {
		t.Error(got)
	}
	if info, err := fs.Lstat(fsys, "formulas/b.yaml"); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is %v, %v", info.Mode(), err)
	}
	if data, _ := fs.ReadFile(fsys, "photo.jpg"); len(data) > 0 {
		t.Errorf("a picture was read: %q", data)
	}
}

// FOLDER@REVISION is cut at the first @ with a folder before it.
func TestCutRevision(t *testing.T) {
	top := t.TempDir()
	for _, d := range []string{"shop", "shop@home", "me@work/shop"} {
		must(t, os.MkdirAll(filepath.Join(top, d), 0o777))
	}
	t.Chdir(top)
	for _, c := range []struct {
		in, dir, rev string
		ok           bool
	}{
		{"shop", "shop", "", false},
		{"shop@home", "shop@home", "", false},
		{"shop@HEAD", "shop", "HEAD", true},
		{"shop@HEAD@{0}", "shop", "HEAD@{0}", true},
		{"shop@{yesterday}", "shop", "{yesterday}", true},
		{"me@work/shop@HEAD~2", "me@work/shop", "HEAD~2", true},
		{"@HEAD", ".", "HEAD", true},
		{".@HEAD", ".", "HEAD", true},
		{"none@HEAD", "none", "HEAD", true},
		{"none", "none", "", false},
		{"shop@", "shop", "", true},
	} {
		dir, rev, ok := keep.CutRevision(c.in)
		if dir != c.dir || rev != c.rev || ok != c.ok {
			t.Errorf("%s: %q, %q, %v", c.in, dir, rev, ok)
		}
	}
}

// What is no revision is refused in whole sentences, and nothing of it reaches
// git as a flag.
func TestNoRevision(t *testing.T) {
	_, shop := repo(t)
	later := filepath.Join(filepath.Dir(shop), "later")
	must(t, os.Mkdir(later, 0o777))
	for _, c := range [][3]string{
		{shop, "", "is not a revision"}, {shop, "--help", "is not a revision"}, {shop, "HEAD\nHEAD", "is not a revision"},
		{shop, "HEAD~9", "there is no revision"}, {shop, "HEAD:shop", "there is no revision"}, {shop, "^HEAD", "is not a revision"},
		{later, "HEAD", "was not there"}, {t.TempDir(), "HEAD", "keeps no revisions"},
	} {
		_, err := keep.Revision(c[0], c[1])
		var told *usage.Error
		if !errors.As(err, &told) || !strings.Contains(told.Msg, c[2]) || told.Hint == "" {
			t.Errorf("%q: %v", c[1], err)
		}
	}
	t.Setenv("PATH", "")
	var told *usage.Error
	if _, err := keep.Revision(shop, "HEAD"); !errors.As(err, &told) || !strings.Contains(told.Msg, "not on this machine") {
		t.Errorf("without git: %v", err)
	}
}

// What git gives is read up to a bound.
func TestRevisionTooLarge(t *testing.T) {
	top, shop := repo(t)
	for _, name := range []string{"a.yaml", "b.yaml"} {
		big := filepath.Join(shop, "products", name)
		must(t, os.MkdirAll(filepath.Dir(big), 0o777))
		must(t, os.WriteFile(big, nil, 0o666))
		must(t, os.Truncate(big, 40<<20))
	}
	commit(t, top)
	var told *usage.Error
	if _, err := keep.Revision(shop, "HEAD"); !errors.As(err, &told) || !strings.Contains(told.Msg, "larger than any shop") {
		t.Errorf("80 MB: %v", err)
	}
}

// A folder from elsewhere may tell git to run programs. For each way that is
// known, git itself shows that the trap is set; reading a revision springs none
// of them.
func TestNothingRuns(t *testing.T) {
	const attributes = "*.yaml filter=trap diff=trap\n"
	for _, c := range []struct {
		name   string
		set    func(t *testing.T, top, trap string)
		spring []string // a git command that runs the program
	}{
		{"archive", func(t *testing.T, top, trap string) {
			run(t, top, "config", "tar.zip.command", trap)
			run(t, top, "config", "tar.tar.command", trap)
		}, []string{"archive", "--format=zip", "HEAD"}},
		{"smudge filter", func(t *testing.T, top, trap string) {
			must(t, os.WriteFile(filepath.Join(top, ".git", "info", "attributes"), []byte(attributes), 0o666))
			run(t, top, "config", "filter.trap.smudge", trap)
			run(t, top, "config", "filter.trap.required", "true")
			must(t, os.Remove(filepath.Join(top, "shop", "shop.yaml")))
		}, []string{"checkout", "--", "shop/shop.yaml"}},
		{"filter process", func(t *testing.T, top, trap string) {
			must(t, os.WriteFile(filepath.Join(top, ".git", "info", "attributes"), []byte(attributes), 0o666))
			run(t, top, "config", "filter.trap.process", trap)
			must(t, os.Remove(filepath.Join(top, "shop", "shop.yaml")))
		}, []string{"checkout", "--", "shop/shop.yaml"}},
		{"textconv", func(t *testing.T, top, trap string) {
			must(t, os.WriteFile(filepath.Join(top, ".git", "info", "attributes"), []byte(attributes), 0o666))
			run(t, top, "config", "diff.trap.textconv", trap)
		}, []string{"cat-file", "--textconv", "HEAD:shop/shop.yaml"}},
		{"external diff", func(t *testing.T, top, trap string) {
			run(t, top, "config", "diff.external", trap)
			must(t, os.WriteFile(filepath.Join(top, "shop", "shop.yaml"), []byte("other"), 0o666))
		}, []string{"diff"}},
		{"watcher", func(t *testing.T, top, trap string) {
			run(t, top, "config", "core.fsmonitor", trap)
		}, []string{"status"}},
		{"hook", func(t *testing.T, top, trap string) {
			hooks := filepath.Join(top, "hooks")
			must(t, os.Mkdir(hooks, 0o777))
			for _, h := range []string{"post-checkout", "pre-commit", "reference-transaction", "post-index-change"} {
				must(t, os.Symlink(trap, filepath.Join(hooks, h)))
			}
			run(t, top, "config", "core.hooksPath", hooks)
		}, []string{"checkout", "-b", "other"}},
		{"alias", func(t *testing.T, top, trap string) {
			for _, a := range []string{"ls-tree", "cat-file", "rev-parse", "trap"} {
				run(t, top, "config", "alias."+a, "!"+trap)
			}
		}, []string{"trap"}},
		{"fetch of what is missing, by a transport", func(t *testing.T, top, trap string) {
			promise(t, top, "ext::"+trap)
			run(t, top, "config", "protocol.ext.allow", "always")
		}, []string{"cat-file", "-p", "HEAD:shop/shop.yaml"}},
		{"fetch of what is missing, by a named program", func(t *testing.T, top, trap string) {
			promise(t, top, "file://"+top)
			run(t, top, "config", "remote.origin.uploadpack", trap)
		}, []string{"cat-file", "-p", "HEAD:shop/shop.yaml"}},
		{"fetch of what is missing, by ssh", func(t *testing.T, top, trap string) {
			promise(t, top, "ssh://shop.example/x")
			run(t, top, "config", "core.sshCommand", trap)
		}, []string{"cat-file", "-p", "HEAD:shop/shop.yaml"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			top, shop := repo(t)
			ran := filepath.Join(t.TempDir(), "ran")
			trap := filepath.Join(t.TempDir(), "trap")
			must(t, os.WriteFile(trap, []byte("#!/bin/sh\n: > '"+ran+"'\nexit 1\n"), 0o777))
			c.set(t, top, trap)
			_ = exec.Command("git", append([]string{"-C", top}, c.spring...)...).Run()
			if err := os.Remove(ran); err != nil {
				t.Fatalf("the trap is not set: %v", err)
			}
			_, err := keep.Revision(shop, "HEAD")
			if _, sprung := os.Stat(ran); sprung == nil {
				t.Errorf("the folder's program was run (%v)", err)
			}
			if missing := strings.HasPrefix(c.name, "fetch"); missing != (err != nil) {
				t.Errorf("read: %v", err)
			}
		})
	}
}

// promise takes an object away and makes the remote the one that promises to
// have it.
func promise(t *testing.T, top, url string) {
	t.Helper()
	id := strings.TrimSpace(run(t, top, "rev-parse", "HEAD:shop/shop.yaml"))
	must(t, os.Remove(filepath.Join(top, ".git", "objects", id[:2], id[2:])))
	for _, kv := range [][2]string{{"core.repositoryFormatVersion", "1"}, {"extensions.partialClone", "origin"}, {"remote.origin.promisor", "true"}, {"remote.origin.url", url}} {
		run(t, top, "config", kv[0], kv[1])
	}
}

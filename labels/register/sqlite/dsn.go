package sqlite

import (
	"net/url"
	"path/filepath"
	"strings"
)

// dsn names the file for the driver, and what holds for every connection to it.
func dsn(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive letter: sqlite.org/uri.html
	}
	q := url.Values{
		"mode":    {"rw"},
		"_txlock": {"immediate"},
		"_pragma": {"busy_timeout(10000)", "synchronous(FULL)", "trusted_schema(0)", "cell_size_check(1)"},
	}
	return "file://" + (&url.URL{Path: path}).EscapedPath() + "?" + q.Encode()
}

package fonts

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

func TestCheck(t *testing.T) {
	if err := Check(); err != nil {
		t.Fatal(err)
	}
}

func TestCheckFindsDamage(t *testing.T) {
	whole := Regular()
	broken := Regular()
	broken[len(broken)-1] ^= 1
	for name, file := range map[string][]byte{
		"cut short": whole[:len(whole)-1], "one bit": broken, "empty": nil, "other face": Bold(),
	} {
		if err := check("regular", file, regularSum); err == nil || !strings.Contains(err.Error(), "damaged") {
			t.Errorf("%s: got %v, want a damaged face", name, err)
		}
	}
}

func TestCallersCannotHarmTheFaces(t *testing.T) {
	Regular()[0], Bold()[0] = 'x', 'x'
	if err := Check(); err != nil {
		t.Error(err)
	}
}

// What is shipped and what is written about it must not drift apart.
func TestReadme(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{regularSum, boldSum, "Apache-2.0", "fonts-roboto-unhinted", "licences/NOTICE.txt"} {
		if !strings.Contains(string(readme), want) {
			t.Errorf("README.md does not name %q", want)
		}
	}
	files, err := os.ReadDir("files")
	if err != nil || len(files) == 0 {
		t.Fatalf("no font files: %v", err)
	}
	for _, f := range files {
		if !strings.Contains(string(readme), "files/"+f.Name()) {
			t.Errorf("README.md does not name files/%s", f.Name())
		}
	}
}

func TestLicences(t *testing.T) {
	for file, want := range map[string]string{
		"licences/Apache-2.0.txt": "TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION",
		"licences/NOTICE.txt":     "Copyright 2011 Google Inc.",
	} {
		b, err := os.ReadFile(file)
		if err != nil || !strings.Contains(string(b), want) {
			t.Errorf("%s does not hold %q (%v)", file, want, err)
		}
	}
}

func ExampleCheck() {
	fmt.Println(Check(), len(Regular()), len(Bold()))
	// Output: <nil> 300664 303944
}

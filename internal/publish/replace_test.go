package publish_test

import (
	"os"
	"path/filepath"
	"testing"

	"sockwright/internal/publish"
)

func TestReplace(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a.txt")
	link := filepath.Join(dir, "link.txt")
	if err := publish.Replace(name, []byte("one")); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(name, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("a.txt", link); err != nil {
		t.Skip("this system has no links:", err)
	}
	if err := publish.Replace(link, []byte("two")); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(name)
	info, _ := os.Lstat(name)
	if err != nil || string(data) != "two" || info.Mode().Perm() != 0o640 {
		t.Errorf("%q with the permissions %v, %v", data, info.Mode(), err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is %v, %v", info, err)
	}
	if err := publish.Replace(filepath.Join(name, "b.txt"), []byte("three")); err == nil {
		t.Error("a file is put below a file")
	}
	if left, _ := os.ReadDir(dir); len(left) != 2 {
		t.Errorf("%d files are left in the folder", len(left))
	}
}

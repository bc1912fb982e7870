package publish

import (
	"errors"
	"os"
	"path/filepath"
)

// Replace puts data in the place of a file, which is whole at every moment: the data is made
// durable beside it and then moved. The file keeps its permissions, and where its name is a
// link to another, the other is replaced. A file that is not there yet is made.
func Replace(name string, data []byte) (err error) {
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real
	}
	dir := filepath.Dir(name)
	part, err := writePart(dir, File{filepath.Base(name), data})
	if part != "" {
		defer func() { err = errors.Join(err, removeIfThere(part)) }()
	}
	if err != nil {
		return err
	}
	if info, err := os.Stat(name); err == nil {
		if err := os.Chmod(part, info.Mode().Perm()); err != nil {
			return err
		}
	}
	if err := os.Rename(part, name); err != nil {
		return err
	}
	return syncDir(dir)
}

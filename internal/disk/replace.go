package disk

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
)

// ErrChanged is returned by [Folder.Replace] for a file that was changed since it was
// read.
var ErrChanged = errors.New("was changed meanwhile; nothing was written")

// Replace puts new bytes in the place of a file of the course that holds the old ones.
// They are written beside it and renamed, so that at any moment the file is whole,
// the old one or the new one. It keeps the file's permissions. A symbolic link is
// not replaced: it fails with [ErrNotRegular].
func (f *Folder) Replace(name string, old, data []byte) error {
	if !fs.ValidPath(name) {
		return invalid("replace", name)
	}
	info, err := f.root.Lstat(name)
	if err != nil {
		return f.named("replace", name, err)
	}
	if !info.Mode().IsRegular() {
		return f.named("replace", name, ErrNotRegular)
	}
	scratch := path.Join(path.Dir(name), "."+path.Base(name)+".new")
	if err := f.writeScratch(scratch, data, info.Mode().Perm()); err != nil {
		return f.named("replace", name, err)
	}
	err = f.unchanged(name, old)
	if err == nil {
		err = f.root.Rename(scratch, name)
	}
	if err != nil {
		_ = f.root.Remove(scratch)
		return f.named("replace", name, err)
	}
	return nil
}

// writeScratch writes a file that waits for its name. One left by a run that was
// killed is overwritten.
func (f *Folder) writeScratch(name string, data []byte, mode fs.FileMode) error {
	if err := f.root.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	out, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	if err == nil {
		err = out.Chmod(mode)
	}
	if err == nil {
		err = out.Sync()
	}
	if closing := out.Close(); err == nil {
		err = closing
	}
	if err != nil {
		_ = f.root.Remove(name)
	}
	return err
}

// unchanged fails where a file no longer holds what was read from it.
func (f *Folder) unchanged(name string, old []byte) error {
	in, err := f.Open(name)
	if err != nil {
		return err
	}
	defer in.Close()
	now, err := io.ReadAll(io.LimitReader(in, int64(len(old))+1))
	if err == nil && !bytes.Equal(now, old) {
		err = ErrChanged
	}
	return err
}

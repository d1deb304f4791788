//go:build !windows

package disk

import "syscall"

func makePipe(name string) error { return syscall.Mkfifo(name, 0o666) }

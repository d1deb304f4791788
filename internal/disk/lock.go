package disk

import "errors"

// ErrBusy is returned by [Write] while another program writes to the same folder.
//
// The operating system holds the lock and releases it with the death of its
// holder, however that comes, so there is no stale lock to clear away. On a file
// system that has no locks the work goes on without one: the worst that two builds
// at once can do there is to leave files that neither of them lists.
var ErrBusy = errors.New("another build is writing to it: wait until it is done")

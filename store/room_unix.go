//go:build unix

package store

import "syscall"

var noRoom = []syscall.Errno{syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG}

//go:build !unix

package store

import "syscall"

// Of Windows, "System Error Codes": ERROR_HANDLE_DISK_FULL and ERROR_DISK_FULL.
var noRoom = []syscall.Errno{39, 112}

//go:build !unix

package store

// isMountPoint is not known here; a folder that cannot be replaced says so.
func isMountPoint(string) bool { return false }

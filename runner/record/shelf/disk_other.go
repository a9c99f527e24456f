//go:build !unix

package shelf

// SyncFolder is for systems that bring names to the disk by themselves.
func (System) SyncFolder(string) error { return nil }

func isReadOnly(error) bool { return false }

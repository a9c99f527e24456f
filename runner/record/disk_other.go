//go:build !unix

package record

// syncFolder is for systems that bring names to the disk by themselves.
func (osDisk) syncFolder(string) error { return nil }

func isReadOnly(error) bool { return false }

package library

// Path returns the import path of the package that cells know by name.
func Path(name string) (string, bool) {
	for path, s := range all() {
		if s.Name == name {
			return path, true
		}
	}
	return "", false
}

package record

// Child does nothing yet.
func Child() {}

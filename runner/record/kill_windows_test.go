package record

func die()             {}
func become(int) error { return nil }

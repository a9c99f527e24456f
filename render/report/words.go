package report

// Verb is the verb s as it follows a count: "fails" after 1, else "fail".
func Verb(n int, s string) string {
	if n == 1 {
		return s + "s"
	}
	return s
}

// Plural is the noun s as it follows a count: "check" after 1, else "checks".
func Plural(n int, s string) string {
	if n == 1 {
		return s
	}
	return s + "s"
}

// IsAre is "is" after a count of 1, else "are".
func IsAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

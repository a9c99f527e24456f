package library

// Digest identifies the library's code.
const Digest = "unset"

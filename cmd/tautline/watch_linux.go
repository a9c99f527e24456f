package main

import (
	"fmt"
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// tryWatch starts to watch a folder and says how many more the kernel allows.
func tryWatch() (string, error) {
	fd, err := unix.InotifyInit1(unix.IN_CLOEXEC)
	if err != nil {
		return "", fmt.Errorf("inotify: %w: close a program that watches files, or raise %s", err, inotify+"instances")
	}
	defer unix.Close(fd)
	if _, err := unix.InotifyAddWatch(fd, os.TempDir(), unix.IN_CLOSE_WRITE); err != nil {
		return "", fmt.Errorf("inotify: %w: close a program that watches files, or raise %s", err, inotify+"watches")
	}
	return fmt.Sprintf("inotify, at most %s folders by %s programs of yours", setting("watches"), setting("instances")), nil
}

const inotify = "/proc/sys/fs/inotify/max_user_"

func setting(name string) string {
	text, err := os.ReadFile(inotify + name)
	if err != nil {
		return "an unknown number of"
	}
	return strings.TrimSpace(string(text))
}

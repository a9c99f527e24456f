package signature

import (
	"bytes"
	"errors"
	"fmt"
	"net"
	"os"
	"strings"

	"golang.org/x/crypto/ssh"
	"golang.org/x/crypto/ssh/agent"
)

// FromFile reads a private key. A file with a public key stands for the private
// one that the agent holds. ask is called for a passphrase when the key has one.
func FromFile(file string, ask func(prompt string) ([]byte, error)) (ssh.Signer, func(), error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, nil, fmt.Errorf("key: %w", err)
	}
	nothing := func() {}
	if public, _, _, _, err := ssh.ParseAuthorizedKey(text); err == nil {
		keys, done, err := fromAgent()
		if err != nil {
			return nil, nil, fmt.Errorf("key %s is a public key, so an agent must hold its private one: %w", file, err)
		}
		for _, k := range keys {
			if bytes.Equal(k.PublicKey().Marshal(), public.Marshal()) {
				return k, done, nil
			}
		}
		done()
		return nil, nil, fmt.Errorf("key %s: the agent does not hold it: add it with ssh-add", file)
	}
	key, err := ssh.ParsePrivateKey(text)
	var locked *ssh.PassphraseMissingError
	if errors.As(err, &locked) {
		pass, askErr := ask("Passphrase of " + file + ": ")
		if askErr != nil {
			return nil, nil, fmt.Errorf("key %s has a passphrase: %w", file, askErr)
		}
		key, err = ssh.ParsePrivateKeyWithPassphrase(text, pass)
	}
	if err != nil {
		return nil, nil, fmt.Errorf("key %s: %w: want a private key for ssh, or the public key of one that the agent holds", file, plainError(err))
	}
	return key, nothing, nil
}

// plainError takes the package's name off an error.
func plainError(err error) error {
	return errors.New(strings.TrimPrefix(strings.TrimPrefix(err.Error(), "ssh: "), "x509: "))
}

// FromAgent returns the one key of the ssh agent that the list knows. done ends
// the talk with the agent.
func FromAgent(t *Trust) (key ssh.Signer, done func(), err error) {
	keys, done, err := fromAgent()
	if err != nil {
		return nil, nil, fmt.Errorf("%w: name your key with --key FILE", err)
	}
	var mine []ssh.Signer
	var names []string
	for _, k := range keys {
		if t.Has(k.PublicKey()) {
			mine = append(mine, k)
			names = append(names, Fingerprint(k.PublicKey()))
		}
	}
	switch len(mine) {
	case 1:
		return mine[0], done, nil
	case 0:
		done()
		return nil, nil, fmt.Errorf("the ssh agent holds %d keys, none of them in the list of allowed signers: name your key with --key FILE, or add yours to the list", len(keys))
	}
	done()
	return nil, nil, fmt.Errorf("the ssh agent holds %d keys that are in the list (%s): name one with --key FILE.pub", len(mine), strings.Join(names, ", "))
}

func fromAgent() ([]ssh.Signer, func(), error) {
	socket := os.Getenv("SSH_AUTH_SOCK")
	if socket == "" {
		return nil, nil, errors.New("there is no ssh agent (SSH_AUTH_SOCK is not set)")
	}
	conn, err := net.Dial("unix", socket)
	if err != nil {
		return nil, nil, fmt.Errorf("the ssh agent does not answer: %w", err)
	}
	keys, err := agent.NewClient(conn).Signers()
	if err != nil {
		conn.Close()
		return nil, nil, fmt.Errorf("the ssh agent does not list its keys: %w", err)
	}
	return keys, func() { conn.Close() }, nil
}

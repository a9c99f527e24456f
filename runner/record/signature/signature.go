// Package signature signs and verifies in the signature format of OpenSSH
// (PROTOCOL.sshsig), with the keys that people have for ssh.
//
//	key, err := signature.FromFile("~/.ssh/id_ed25519", ask)
//	armored, err := signature.Sign(key, namespace, text)
//	public, err := signature.Verify(armored, namespace, text)
//	who, err := trust.Who(public, namespace, when)
//
// Verify says which key signed; whose key that is says a Trust, an
// allowed_signers file. ssh-keygen -Y verify reads the same signature and the
// same file.
//
// A signature has one form only: what differs from it in a single byte is no
// signature.
package signature

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/crypto/ssh"
)

const (
	preamble  = "SSHSIG"
	version   = 1
	beginning = "-----BEGIN SSH SIGNATURE-----\n"
	ending    = "-----END SSH SIGNATURE-----\n"
	width     = 70 // of a line, as ssh-keygen writes it
)

// A blob is what an armored signature holds, after its preamble.
type blob struct {
	Version   uint32
	PublicKey string
	Namespace string
	Reserved  string
	Hash      string
	Signature string
}

// signed is what the key signs, after the preamble.
type signed struct {
	Namespace string
	Reserved  string
	Hash      string
	Digest    string
}

// Sign signs a text in a namespace. The result is what ssh-keygen -Y sign writes:
// lines of letters between two marks.
func Sign(key ssh.Signer, namespace string, text []byte) (string, error) {
	if err := known(key.PublicKey()); err != nil {
		return "", err
	}
	const hash = "sha512"
	message, _ := signedBytes(namespace, hash, text)
	var sig *ssh.Signature
	var err error
	if with, ok := key.(ssh.AlgorithmSigner); ok && key.PublicKey().Type() == ssh.KeyAlgoRSA {
		sig, err = with.SignWithAlgorithm(rand.Reader, message, ssh.KeyAlgoRSASHA512)
	} else {
		sig, err = key.Sign(rand.Reader, message)
	}
	if err != nil {
		return "", fmt.Errorf("the key does not sign: %w", err)
	}
	b := blob{version, string(key.PublicKey().Marshal()), namespace, "", hash, string(ssh.Marshal(sig))}
	out := armor(b)
	if _, err := Verify(out, namespace, text); err != nil {
		return "", fmt.Errorf("the key signed, but what it gave does not verify: %w", err)
	}
	return out, nil
}

// Verify returns the key that signed a text in a namespace. It is an error when
// the signature is no whole one, of another namespace or another text.
func Verify(armored, namespace string, text []byte) (ssh.PublicKey, error) {
	b, err := dearmor(armored)
	if err != nil {
		return nil, err
	}
	switch {
	case b.Version != version:
		return nil, fmt.Errorf("version of the signature: got %d, want %d", b.Version, version)
	case b.Namespace != namespace:
		return nil, fmt.Errorf("namespace of the signature: got %q, want %q: it was made for another purpose", b.Namespace, namespace)
	}
	message, err := signedBytes(b.Namespace, b.Hash, text)
	if err != nil {
		return nil, err
	}
	key, err := ssh.ParsePublicKey([]byte(b.PublicKey))
	if err != nil {
		return nil, fmt.Errorf("key of the signature: %w", err)
	}
	if err := known(key); err != nil {
		return nil, err
	}
	var sig ssh.Signature
	if err := ssh.Unmarshal([]byte(b.Signature), &sig); err != nil {
		return nil, fmt.Errorf("signature: %w", err)
	}
	if err := modern(sig.Format); err != nil {
		return nil, err
	}
	if err := key.Verify(message, &sig); err != nil {
		return nil, errors.New("the signature is not of this text: one of the two was changed")
	}
	return key, nil
}

// Fingerprint names a key as ssh-keygen -l does.
func Fingerprint(key ssh.PublicKey) string { return ssh.FingerprintSHA256(key) }

// known refuses the keys that are too weak, or that are no plain key.
func known(key ssh.PublicKey) error {
	types := []string{ssh.KeyAlgoED25519, ssh.KeyAlgoECDSA256, ssh.KeyAlgoECDSA384, ssh.KeyAlgoECDSA521,
		ssh.KeyAlgoRSA, ssh.KeyAlgoSKED25519, ssh.KeyAlgoSKECDSA256}
	if !slices.Contains(types, key.Type()) {
		return fmt.Errorf("type of key: got %s, want ed25519, ecdsa or rsa: make one with ssh-keygen -t ed25519", key.Type())
	}
	return nil
}

// modern refuses signatures by RSA over SHA-1.
func modern(format string) error {
	if format == ssh.KeyAlgoRSA {
		return errors.New("signature algorithm: got ssh-rsa (SHA-1), want rsa-sha2-512: sign again with a newer ssh")
	}
	return nil
}

func signedBytes(namespace, hash string, text []byte) ([]byte, error) {
	var digest string
	switch hash {
	case "sha256":
		sum := sha256.Sum256(text)
		digest = string(sum[:])
	case "sha512":
		sum := sha512.Sum512(text)
		digest = string(sum[:])
	default:
		return nil, fmt.Errorf("hash of the signature: got %q, want sha256 or sha512", hash)
	}
	return append([]byte(preamble), ssh.Marshal(signed{namespace, "", hash, digest})...), nil
}

func armor(b blob) string {
	text := base64.StdEncoding.EncodeToString(append([]byte(preamble), ssh.Marshal(b)...))
	var out strings.Builder
	out.WriteString(beginning)
	for line := range slices.Chunk([]byte(text), width) {
		out.Write(line)
		out.WriteByte('\n')
	}
	out.WriteString(ending)
	return out.String()
}

func dearmor(armored string) (blob, error) {
	var b blob
	body, ok := strings.CutPrefix(armored, beginning)
	if ok {
		body, ok = strings.CutSuffix(body, ending)
	}
	if !ok {
		return b, errors.New("signature: got a text without its two marks, want an OpenSSH signature")
	}
	raw, err := base64.StdEncoding.Strict().DecodeString(strings.ReplaceAll(body, "\n", ""))
	if err != nil {
		return b, fmt.Errorf("signature: %w", err)
	}
	raw, ok = bytes.CutPrefix(raw, []byte(preamble))
	if !ok {
		return b, errors.New("signature: got no preamble SSHSIG")
	}
	if err := ssh.Unmarshal(raw, &b); err != nil {
		return b, fmt.Errorf("signature: %w", err)
	}
	if armor(b) != armored {
		return b, errors.New("signature: got another layout than it was written in: a byte was changed")
	}
	return b, nil
}

// Cut divides a text that begins with an armored signature.
func Cut(text string) (armored, rest string, ok bool) {
	if !strings.HasPrefix(text, beginning) {
		return "", text, false
	}
	end := strings.Index(text, "\n"+ending)
	if end < 0 {
		return "", text, false
	}
	end += len("\n" + ending)
	return text[:end], text[end:], true
}

// Package access tells who asks for a page, and lets devices of the workshop's network in.
//
// # Who asks
//
// The owner at this computer itself is the owner without being asked anything: whoever can open a page
// here can read the data folder too. Everybody else is a device that has signed in, by the passphrase or
// by a pairing code that was shown to it, or a stranger, who is shown nothing but the way to sign in.
// [Reach] says when a request counts as made at this computer.
//
// # What is secret
//
//   - The passphrase is kept as argon2id (RFC 9106); see [Hash].
//   - A session is 256 random bits in a cookie; its SHA-256 is kept, so that who reads the data file
//     cannot use it. It ends when the device signs out or is shut out, when the passphrase is changed, and
//     after 30 days. It is sought anew for each request, so that all of these hold at once.
//   - A pairing code is 80 random bits. There is one at a time, in memory alone; it works once, within ten
//     minutes. A device that came by a code may use the machines, and not let others in: only the owner
//     here and devices that know the passphrase may.
//
// # Guessing
//
// Failed attempts are counted for each address and in all: see [Limits]. Neither holds at this computer,
// where nobody signs in, nor for a device that is in: whoever fills them keeps out newcomers, no more.
package access

-- Who may use the pages from other computers: whoever knows the one passphrase, and the devices that
-- were let in by it or by a code that was shown.
--
-- No secret stands here as it is: of the passphrase an argon2id hash, of a device's token its SHA-256.
-- Codes are kept in memory alone.

CREATE TABLE passphrase (
	id      INTEGER PRIMARY KEY CHECK (id = 1), -- there is one
	hash    TEXT NOT NULL CHECK (hash <> ''),   -- $argon2id$v=19$m=…,t=…,p=…$salt$hash
	changed TEXT NOT NULL
) STRICT;

-- A device that is shut out is deleted, so that its token is worth nothing from that moment.
CREATE TABLE device (
	id      INTEGER PRIMARY KEY,
	token   BLOB NOT NULL UNIQUE CHECK (length(token) = 32), -- SHA-256 of what its cookie holds
	name    TEXT NOT NULL CHECK (name <> ''),
	way     TEXT NOT NULL CHECK (way IN ('passphrase', 'code')),
	paired  TEXT NOT NULL,
	seen    TEXT NOT NULL,
	expires TEXT NOT NULL
) STRICT;

-- A machine as measured, and what is to become of it.
--
-- Figures are kept as they were typed, as text; nothing here is computed. Instants are UTC, RFC 3339.
-- Deleting a machine, an axis or an upgrade sets its deleted_at, so that it can be had back.

CREATE TABLE machine (
	id         INTEGER PRIMARY KEY,
	name       TEXT NOT NULL CHECK (name <> ''),
	kind       TEXT NOT NULL,             -- "lathe", "mill", …
	units      TEXT NOT NULL CHECK (units IN ('mm', 'in')), -- what a bare number is taken for
	note       TEXT NOT NULL,
	revision   INTEGER NOT NULL CHECK (revision > 0), -- counts the changes of this row's own words
	changes    INTEGER NOT NULL CHECK (changes > 0),  -- counts all changes, drafts being typed left out
	created_at TEXT NOT NULL,
	changed_at TEXT NOT NULL,             -- drafts being typed included
	deleted_at TEXT                       -- NULL: it is not deleted
) STRICT;

CREATE TABLE axis (
	id          INTEGER PRIMARY KEY,
	machine_id  INTEGER NOT NULL REFERENCES machine (id) ON DELETE CASCADE,
	position    INTEGER NOT NULL,         -- order on the page
	key         TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_]*'),
	label       TEXT NOT NULL,
	arrangement TEXT NOT NULL,            -- what drives it, and what stays
	capacity    TEXT NOT NULL,            -- what follows from its travel; '': nothing
	datum       TEXT NOT NULL,            -- the face that positions are measured from, in words
	plus_label  TEXT NOT NULL,            -- its two ends, in words
	minus_label TEXT NOT NULL,
	revision    INTEGER NOT NULL CHECK (revision > 0), -- counts the changes of the axis and all its children
	deleted_at  TEXT
) STRICT;
CREATE INDEX axis_machine ON axis (machine_id);
-- A deleted axis does not keep its key from a new one.
CREATE UNIQUE INDEX axis_key ON axis (machine_id, key) WHERE deleted_at IS NULL;

-- An answer to a question that the arrangement asks.
CREATE TABLE answer (
	id      INTEGER PRIMARY KEY,
	axis_id INTEGER NOT NULL REFERENCES axis (id) ON DELETE CASCADE,
	key     TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_.]*'),
	value   TEXT NOT NULL,                -- '': not answered
	UNIQUE (axis_id, key)
) STRICT;

-- An interval along an axis.
CREATE TABLE part (
	id       INTEGER PRIMARY KEY,
	axis_id  INTEGER NOT NULL REFERENCES axis (id) ON DELETE CASCADE,
	position INTEGER NOT NULL,
	key      TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_]*'),
	label    TEXT NOT NULL,
	role     TEXT NOT NULL,
	side     TEXT NOT NULL CHECK (side IN ('fixed', 'moving')),
	tie_part TEXT,                        -- key of the part that it follows; NULL: both faces are measured
	tie_face TEXT CHECK (tie_face IN ('from', 'to')),
	lanes    TEXT CHECK (json_type(lanes) = 'array'), -- JSON, names of lanes; NULL: those of its role
	material TEXT NOT NULL,               -- '': not said
	UNIQUE (axis_id, key),
	CHECK ((tie_part IS NULL) = (tie_face IS NULL))
) STRICT;

-- What may be met at an end of the travel. Its gap is an entry, key 'gap'.
CREATE TABLE obstacle (
	id       INTEGER PRIMARY KEY,
	axis_id  INTEGER NOT NULL REFERENCES axis (id) ON DELETE CASCADE,
	position INTEGER NOT NULL,
	key      TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_]*'),
	label    TEXT NOT NULL,
	at_end   TEXT NOT NULL CHECK (at_end IN ('plus', 'minus')),
	clear    INTEGER NOT NULL CHECK (clear IN (0, 1)), -- 1: ruled out by the user
	UNIQUE (axis_id, key)
) STRICT;

-- A figure as a person gave it: of the axis itself, of one of its parts, or of an obstacle.
CREATE TABLE entry (
	id          INTEGER PRIMARY KEY,
	axis_id     INTEGER NOT NULL REFERENCES axis (id) ON DELETE CASCADE,
	part_id     INTEGER REFERENCES part (id) ON DELETE CASCADE,
	obstacle_id INTEGER REFERENCES obstacle (id) ON DELETE CASCADE,
	key         TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_.]*'),
	typed       TEXT NOT NULL,            -- "118", '1-1/4"'; '': not given
	spread      TEXT NOT NULL,            -- typed: how far off it can be; '': as the instrument usually is
	instrument  TEXT NOT NULL,            -- '': not said
	taken_on    TEXT NOT NULL,            -- a day, as typed; '': not said
	origin      TEXT NOT NULL CHECK (origin IN ('', 'measured', 'as made', 'assumed', 'chosen', 'unknown')),
	note        TEXT NOT NULL,
	CHECK (part_id IS NULL OR obstacle_id IS NULL)
) STRICT;
CREATE INDEX entry_part ON entry (part_id);
CREATE INDEX entry_obstacle ON entry (obstacle_id);
-- Begins with axis_id, so it serves that key as well. Two NULLs are never equal: hence the 0.
CREATE UNIQUE INDEX entry_key ON entry (axis_id, ifnull(part_id, 0), ifnull(obstacle_id, 0), key);

-- A change that the owner wants. A draft is kept as it is being typed, and does not count yet.
CREATE TABLE upgrade (
	id          INTEGER PRIMARY KEY,
	machine_id  INTEGER NOT NULL REFERENCES machine (id) ON DELETE CASCADE,
	position    INTEGER NOT NULL,         -- order in which they are made, the deleted ones among them
	-- "1", "2", …: never used again in its machine.
	public_id   TEXT NOT NULL CHECK (public_id GLOB '[1-9]*' AND public_id NOT GLOB '*[^0-9]*' AND length(public_id) < 10),
	kind        TEXT NOT NULL,
	axis_key    TEXT NOT NULL,            -- '': none
	state       TEXT NOT NULL CHECK (state IN ('draft', 'planned', 'finished')),
	finished_on TEXT NOT NULL CHECK (finished_on = '' OR finished_on IS date(finished_on)), -- '': not said
	revision    INTEGER NOT NULL CHECK (revision > 0),
	deleted_at  TEXT,
	UNIQUE (machine_id, public_id)
) STRICT;

-- What was typed or chosen for an upgrade.
CREATE TABLE upgrade_input (
	id         INTEGER PRIMARY KEY,
	upgrade_id INTEGER NOT NULL REFERENCES upgrade (id) ON DELETE CASCADE,
	name       TEXT NOT NULL CHECK (name <> ''),
	typed      TEXT NOT NULL,
	UNIQUE (upgrade_id, name)
) STRICT;
-- A size as measured on a finished part of an upgrade, as it was typed. Its key is that of the part and
-- the name of the size, joined by a dot: "bracket.length".

CREATE TABLE upgrade_made (
	id         INTEGER PRIMARY KEY,
	upgrade_id INTEGER NOT NULL REFERENCES upgrade (id) ON DELETE CASCADE,
	key        TEXT NOT NULL CHECK (key GLOB '[a-z_]*' AND key NOT GLOB '*[^a-z0-9_.]*'),
	typed      TEXT NOT NULL,             -- '': not given
	spread     TEXT NOT NULL,             -- typed: how far off it can be; '': as the instrument usually is
	instrument TEXT NOT NULL,             -- '': not said
	taken_on   TEXT NOT NULL,             -- a day, as typed; '': not said
	origin     TEXT NOT NULL CHECK (origin IN ('', 'measured', 'as made', 'assumed', 'chosen', 'unknown')),
	note       TEXT NOT NULL,
	UNIQUE (upgrade_id, key)
) STRICT;
-- What the owner noted of a machine's buy list, and the bar that is in the rack for it.
--
-- A mark is kept by the key of its line, which is made from what the line is, so that it survives a
-- change of the plan. Prices, counts and sizes are kept as they were typed.

CREATE TABLE shopping (
	id         INTEGER PRIMARY KEY,
	machine_id INTEGER NOT NULL UNIQUE REFERENCES machine (id) ON DELETE CASCADE,
	currency   TEXT NOT NULL,             -- of a price without one, as typed; '': not said
	revision   INTEGER NOT NULL CHECK (revision > 0) -- counts the changes of the marks and the offcuts too
) STRICT;

CREATE TABLE shopping_mark (
	id          INTEGER PRIMARY KEY,
	shopping_id INTEGER NOT NULL REFERENCES shopping (id) ON DELETE CASCADE,
	key         TEXT NOT NULL CHECK (key <> ''),
	called      TEXT NOT NULL,            -- what the line was when it was marked
	state       TEXT NOT NULL CHECK (state IN ('to get', 'ordered', 'bought', 'had already')),
	quantity    TEXT NOT NULL,            -- typed: how many that is true of; '': as many as are needed
	price       TEXT NOT NULL,            -- typed, of one; '': not said
	note        TEXT NOT NULL,
	UNIQUE (shopping_id, key)
) STRICT;

CREATE TABLE offcut (
	id          INTEGER PRIMARY KEY,
	shopping_id INTEGER NOT NULL REFERENCES shopping (id) ON DELETE CASCADE,
	position    INTEGER NOT NULL,
	label       TEXT NOT NULL,
	material    TEXT NOT NULL,            -- key of a material; '': not said
	form        TEXT NOT NULL,            -- "round", "flat", …
	across      TEXT NOT NULL,            -- typed: the diameter, or the width
	second      TEXT NOT NULL,            -- typed: the thickness of a flat; '': none
	length      TEXT NOT NULL             -- typed
) STRICT;
CREATE INDEX offcut_shopping ON offcut (shopping_id);
-- The build log: what was done, what it took, and photos of it.
--
-- Hours and costs are kept as they were typed. A photo's file is named by its content; a row says that it
-- was kept, and the entry that shows it names the row.

ALTER TABLE machine ADD COLUMN log_changes INTEGER NOT NULL DEFAULT 0; -- counts the changes of its log

CREATE TABLE log_entry (
	id         INTEGER PRIMARY KEY,
	machine_id INTEGER NOT NULL REFERENCES machine (id) ON DELETE CASCADE,
	-- Given by whoever writes the entry, before it is sent: sent twice, it is still one.
	key        TEXT NOT NULL CHECK (length(key) BETWEEN 1 AND 64 AND key NOT GLOB '*[^A-Za-z0-9_-]*'),
	at         TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M', at)), -- on the workshop's clock, no zone
	text       TEXT NOT NULL,             -- Markdown
	hours      TEXT NOT NULL,             -- typed; '': not said
	cost       TEXT NOT NULL,             -- typed; '': not said
	currency   TEXT NOT NULL,             -- typed, of a cost without one; '': not said
	axis_key   TEXT NOT NULL,             -- '': none
	upgrade_id TEXT,                      -- NULL: none
	part_key   TEXT NOT NULL,             -- '': none
	first_sent TEXT NOT NULL,             -- SHA-256 of the entry as it first came: the same again is no change
	revision   INTEGER NOT NULL CHECK (revision > 0),
	created_at TEXT NOT NULL,
	changed_at TEXT NOT NULL,
	deleted_at TEXT,                      -- NULL: it is not deleted
	UNIQUE (machine_id, key),
	FOREIGN KEY (machine_id, upgrade_id) REFERENCES upgrade (machine_id, public_id)
) STRICT;
-- A page of the log is one reach into one of these, at any length of the log.
CREATE INDEX log_entry_machine ON log_entry (machine_id, deleted_at, at);
CREATE INDEX log_entry_upgrade ON log_entry (upgrade_id, machine_id, deleted_at, at);
-- All that a sum reads, in the order in which it is grouped.
CREATE INDEX log_entry_spent ON log_entry (machine_id, deleted_at, upgrade_id, hours, cost, currency);
CREATE INDEX log_entry_deleted ON log_entry (deleted_at) WHERE deleted_at IS NOT NULL;

-- A photo that was kept, or of which an imported log tells.
CREATE TABLE photo (
	id       INTEGER PRIMARY KEY,
	sha256   TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
	type     TEXT NOT NULL CHECK (type IN ('image/jpeg', 'image/png', 'image/webp', 'image/heic')),
	width    INTEGER NOT NULL CHECK (width > 0),  -- pixels, the right way up
	height   INTEGER NOT NULL CHECK (height > 0),
	taken    TEXT NOT NULL,               -- on the camera's clock: 2026-03-01T14:30:05; '': not said
	place    TEXT NOT NULL,               -- latitude and longitude in degrees, WGS 84: 51.4779,-0.0015; '': not said
	added_at TEXT NOT NULL
) STRICT;

CREATE TABLE log_photo (
	id       INTEGER PRIMARY KEY,
	entry_id INTEGER NOT NULL REFERENCES log_entry (id) ON DELETE CASCADE,
	photo_id INTEGER NOT NULL REFERENCES photo (id),
	position INTEGER NOT NULL,
	caption  TEXT NOT NULL,
	role     TEXT NOT NULL CHECK (role IN ('', 'before', 'after')),
	UNIQUE (entry_id, photo_id)
) STRICT;
CREATE INDEX log_photo_photo ON log_photo (photo_id);
CREATE UNIQUE INDEX log_photo_role ON log_photo (entry_id, role) WHERE role <> '';

-- A photo that has come before its entry.
CREATE TABLE staged_photo (
	id         INTEGER PRIMARY KEY,
	machine_id INTEGER NOT NULL REFERENCES machine (id) ON DELETE CASCADE,
	entry_key  TEXT NOT NULL CHECK (length(entry_key) BETWEEN 1 AND 64 AND entry_key NOT GLOB '*[^A-Za-z0-9_-]*'),
	photo_id   INTEGER NOT NULL REFERENCES photo (id),
	staged_at  TEXT NOT NULL,
	UNIQUE (machine_id, entry_key, photo_id)
) STRICT;
CREATE INDEX staged_photo_photo ON staged_photo (photo_id);

-- The words of entries, rowid that of the entry. The deleted ones are among them.
CREATE VIRTUAL TABLE log_search USING fts5 (text, captions, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3');
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
-- The mass of what moves on an axis was two figures: moving_mass where it goes up and down, slide_mass
-- where it tips beyond its ways. It is one now: what was typed takes the place of what was assumed, and
-- where both were typed, both stay as they were.

DELETE FROM entry
WHERE key = 'moving_mass' AND (typed = '' OR origin = 'assumed') AND part_id IS NULL AND obstacle_id IS NULL
	AND EXISTS (SELECT 1 FROM entry AS other
		WHERE other.axis_id = entry.axis_id AND other.key = 'slide_mass' AND other.typed <> '' AND other.part_id IS NULL AND other.obstacle_id IS NULL);

UPDATE entry SET key = 'moving_mass'
WHERE key = 'slide_mass' AND part_id IS NULL AND obstacle_id IS NULL
	AND NOT EXISTS (SELECT 1 FROM entry AS other
		WHERE other.axis_id = entry.axis_id AND other.key = 'moving_mass' AND other.part_id IS NULL AND other.obstacle_id IS NULL);

PRAGMA user_version = 6;
INSERT INTO machine VALUES (1, 'Bench lathe', 'lathe', 'in', 'Großvater''s, "as found"
in the cellar', 1, 1, '2026-03-01T12:00:00.000Z', '2026-03-01T12:00:00.000Z', NULL, 2);
INSERT INTO axis VALUES (1, 1, 1, 'cross', 'Cross slide', 'nut_travels', 'facing', 'back of the saddle', 'outward', 'inward', 1, NULL);
INSERT INTO answer VALUES (1, 1, 'who_carries_the_screw', 'yes');
INSERT INTO part VALUES (1, 1, 0, 'bracket', 'Bracket', 'bracket', 'fixed', NULL, NULL, NULL, 'aluminium');
INSERT INTO part VALUES (2, 1, 1, 'dial', 'Dial', 'dial', 'fixed', 'bracket', 'to', '["screw"]', '');
INSERT INTO part VALUES (3, 1, 2, 'nut', 'Nut', 'nut', 'moving', NULL, NULL, '[]', '');
INSERT INTO obstacle VALUES (1, 1, 0, 'tray', 'Splash tray', 'plus', 0);
INSERT INTO obstacle VALUES (2, 1, 1, 'web', 'Rear web', 'minus', 1);
INSERT INTO entry VALUES (1, 1, NULL, NULL, 'travel_found', '3-7/16"', '5 thou', 'caliper', '2026-02-28', '', 'twice');
INSERT INTO entry VALUES (2, 1, 1, NULL, 'from', '141 mm', '', '', '', '', '');
INSERT INTO entry VALUES (3, 1, 1, NULL, 'to', '167 mm', '', '', '', 'as made', '');
INSERT INTO entry VALUES (4, 1, 2, NULL, 'gap', '0.5', '', '', '', '', '');
INSERT INTO entry VALUES (5, 1, NULL, 1, 'gap', '20', '', '', '', 'assumed', 'a guess');
INSERT INTO upgrade VALUES (1, 1, 0, '2', 'extend_travel', 'cross', 'finished', '2026-02-27', 1, NULL);
INSERT INTO upgrade VALUES (2, 1, 1, '1', 'extend_travel', 'cross', 'draft', '', 1, NULL);
INSERT INTO upgrade_input VALUES (1, 1, 'amount', '1/2"');
INSERT INTO upgrade_input VALUES (2, 1, 'end', 'plus');
INSERT INTO upgrade_input VALUES (3, 2, 'amount', '12,');
INSERT INTO upgrade_made VALUES (1, 1, 'bracket.length', '38.58', '0.02', 'caliper', '2026-02-27', '', 'cold');
INSERT INTO upgrade_made VALUES (2, 1, 'extension.length', '0.97 in', '', '', '', 'as made', '');
INSERT INTO shopping VALUES (1, 1, 'eur', 1);
INSERT INTO shopping_mark VALUES (1, 1, 'bearing', 'support bearing', 'ordered', '2', '6,50', 'one to spare');
INSERT INTO offcut VALUES (1, 1, 0, 'end of the last job', 'c45', 'round', '7/8"', '', '260');
INSERT INTO log_entry VALUES (1, 1, 'first', '2026-02-27T18:30', 'Bored the *bracket*.', '1:30', '6,50', 'eur', 'cross', '2', 'bracket', 'e414547dbf2f1c319ff52462c60c1afb21de0aebd446841ec0808e40e0894435', 1, '2026-03-01T12:00:00.000Z', '2026-03-01T12:00:00.000Z', NULL);
INSERT INTO log_entry VALUES (2, 1, 'second', '2026-02-28T09:00', '', '', '', '', '', NULL, '', 'a30d54fbdd4221ee944651380574a7120b09ba1f6f4db4eff76b229cf8127d5b', 1, '2026-03-01T12:00:00.000Z', '2026-03-01T12:00:00.000Z', NULL);
INSERT INTO photo VALUES (1, 'abababababababababababababababababababababababababababababababab', 'image/jpeg', 4000, 3000, '2026-02-27T17:00:05', '51.477900,-0.001500', '2026-03-01T12:00:00.000Z');
INSERT INTO photo VALUES (2, 'cdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcd', 'image/heic', 3024, 4032, '', '', '2026-03-01T12:00:00.000Z');
INSERT INTO log_photo VALUES (1, 1, 1, 0, 'before', 'before');
INSERT INTO log_photo VALUES (2, 1, 2, 1, '', '');
INSERT INTO passphrase VALUES (1, '$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc', '2026-03-01T12:00:00.000Z');
INSERT INTO device VALUES (1, X'0102030000000000000000000000000000000000000000000000000000000000', 'Telefon in der Werkstatt', 'code', '2026-03-01T12:00:00.000Z', '2026-03-01T12:00:00.000Z', '2026-03-31T12:00:00.000Z');
INSERT INTO log_search (rowid, text, captions) VALUES (1, 'Bored the *bracket*.', 'before  ');
INSERT INTO log_search (rowid, text, captions) VALUES (2, '', '');

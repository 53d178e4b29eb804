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

PRAGMA user_version = 2;
INSERT INTO machine VALUES (1, 'Bench lathe', 'lathe', 'in', 'Großvater''s, "as found"
in the cellar', 1, 1, '2026-03-01T12:00:00.000Z', '2026-03-01T12:00:00.000Z', NULL);
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

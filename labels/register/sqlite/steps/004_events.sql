-- What happened to food: what came in, was made, packed and shipped. Undoing is
-- another event.
CREATE TABLE events (
	number  INTEGER PRIMARY KEY,
	kind    TEXT NOT NULL,
	at      TEXT NOT NULL, -- when it happened
	noted   TEXT NOT NULL, -- what the clock of the machine said
	zone    TEXT NOT NULL,
	who     TEXT NOT NULL,
	partner TEXT NOT NULL,
	ord     TEXT NOT NULL,
	made    TEXT NOT NULL,
	until   TEXT NOT NULL,
	facts   TEXT NOT NULL,
	why     TEXT NOT NULL,
	undoes  INTEGER REFERENCES events (number)
) STRICT;

CREATE UNIQUE INDEX events_undone ON events (undoes) WHERE undoes IS NOT NULL;

-- What goes in and what comes out, in the order in which it was said.
CREATE TABLE parts (
	event  INTEGER NOT NULL REFERENCES events (number),
	side   TEXT NOT NULL CHECK (side IN ('in', 'out')),
	n      INTEGER NOT NULL,
	kind   TEXT NOT NULL,
	id     TEXT NOT NULL,
	code   TEXT NOT NULL,
	mass   INTEGER NOT NULL CHECK (mass >= 0), -- nanograms
	pieces INTEGER NOT NULL CHECK (pieces >= 0),
	PRIMARY KEY (event, side, n)
) STRICT, WITHOUT ROWID;

CREATE INDEX parts_thing ON parts (code, id, kind, side);

CREATE TRIGGER events_keep BEFORE DELETE ON events
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;
CREATE TRIGGER events_stay BEFORE UPDATE ON events
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;
CREATE TRIGGER parts_keep BEFORE DELETE ON parts
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;
CREATE TRIGGER parts_stay BEFORE UPDATE ON parts
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;

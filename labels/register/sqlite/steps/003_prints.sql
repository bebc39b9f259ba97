-- What was printed.
CREATE TABLE prints (
	number     INTEGER PRIMARY KEY,
	kind       TEXT NOT NULL,
	id         TEXT NOT NULL,
	version    TEXT NOT NULL,
	check_word TEXT NOT NULL,
	batch      TEXT NOT NULL,
	made       TEXT NOT NULL,
	series     TEXT NOT NULL,
	lo         INTEGER NOT NULL,
	hi         INTEGER NOT NULL CHECK (hi >= lo),
	count      INTEGER NOT NULL,
	digest     TEXT NOT NULL,
	again      TEXT NOT NULL,
	at         TEXT NOT NULL
) STRICT;

CREATE INDEX prints_batch ON prints (batch);
CREATE INDEX prints_numbers ON prints (series, hi) WHERE series <> '';

CREATE TRIGGER prints_keep BEFORE DELETE ON prints
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;

CREATE TRIGGER prints_stay BEFORE UPDATE ON prints
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;

-- Which copy of which card hangs where. A row is written once; later only the
-- end of its hanging is noted.
CREATE TABLE copies (
	number     INTEGER PRIMARY KEY,
	id         TEXT NOT NULL,
	version    TEXT NOT NULL,
	issued     TEXT NOT NULL,
	check_word TEXT NOT NULL,
	size       TEXT NOT NULL,
	n          INTEGER NOT NULL,
	m          INTEGER NOT NULL,
	place      TEXT NOT NULL,
	paper      TEXT NOT NULL,
	langs      TEXT NOT NULL, -- codes with commas between them
	at         TEXT NOT NULL, -- moments are RFC 3339, UTC
	down       TEXT,
	by         INTEGER NOT NULL DEFAULT 0
) STRICT;

CREATE UNIQUE INDEX copies_hanging ON copies (id, place, size, paper, langs, n) WHERE down IS NULL;
CREATE INDEX copies_id ON copies (id);

CREATE TRIGGER copies_keep BEFORE DELETE ON copies
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;

CREATE TRIGGER copies_end BEFORE UPDATE ON copies
WHEN OLD.down IS NOT NULL OR NEW.down IS NULL
	OR (NEW.number, NEW.id, NEW.version, NEW.issued, NEW.check_word, NEW.size, NEW.n, NEW.m, NEW.place, NEW.paper, NEW.langs, NEW.at)
	IS NOT (OLD.number, OLD.id, OLD.version, OLD.issued, OLD.check_word, OLD.size, OLD.n, OLD.m, OLD.place, OLD.paper, OLD.langs, OLD.at)
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;

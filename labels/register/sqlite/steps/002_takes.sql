-- Which numbers were given, lo to hi, each once.
CREATE TABLE takes (
	series TEXT NOT NULL,
	lo     INTEGER NOT NULL CHECK (lo >= 1),
	hi     INTEGER NOT NULL CHECK (hi >= lo),
	at     TEXT NOT NULL,
	what   TEXT NOT NULL,
	PRIMARY KEY (series, lo)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER takes_once BEFORE INSERT ON takes
WHEN NEW.lo <= (SELECT hi FROM takes WHERE series = NEW.series ORDER BY lo DESC LIMIT 1)
BEGIN SELECT raise(ABORT, 'a number is given once'); END;

CREATE TRIGGER takes_keep BEFORE DELETE ON takes
BEGIN SELECT raise(ABORT, 'nothing is deleted from a register'); END;

CREATE TRIGGER takes_stay BEFORE UPDATE ON takes
BEGIN SELECT raise(ABORT, 'nothing is written over in a register'); END;

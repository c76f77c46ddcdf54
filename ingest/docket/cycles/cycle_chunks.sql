-- Large cycle logs: one row a block of up to 65,536 cycles, packed (the format is in cycles/cycle_pack.h).
--
-- Times of day are milliseconds since 1970-01-01 00:00 on the plant's own clock; other times are seconds. In SQL the
-- cycles are the table cycle_log, which the program makes of these two while it has the file open.

CREATE TABLE cycle_chunk (
  source INTEGER NOT NULL CHECK (source >= 1),
  chunk INTEGER NOT NULL CHECK (chunk >= 1), -- 1, 2, 3 in the order of the source
  cycles INTEGER NOT NULL CHECK (cycles BETWEEN 1 AND 65536),
  started_first_ms INTEGER NOT NULL, -- the least and the greatest of them, whatever their order
  started_last_ms INTEGER NOT NULL CHECK (started_last_ms >= started_first_ms),
  cycle_sum_s REAL NOT NULL CHECK (cycle_sum_s > 0),
  cycle_min_s REAL NOT NULL CHECK (cycle_min_s > 0),
  cycle_max_s REAL NOT NULL CHECK (cycle_max_s >= cycle_min_s),
  packed BLOB NOT NULL,
  PRIMARY KEY (source, chunk)
) STRICT;

-- What the codes in the blocks stand for. Code 0 is a blank cell and has no row.
CREATE TABLE cycle_word (
  kind TEXT NOT NULL CHECK (kind IN ('variant', 'station', 'shift', 'operator')),
  code INTEGER NOT NULL CHECK (code BETWEEN 1 AND 4294967295),
  word TEXT NOT NULL CHECK (word <> ''),
  PRIMARY KEY (kind, code),
  UNIQUE (kind, word)
) STRICT;

CREATE TRIGGER cycle_chunk_unchanged BEFORE UPDATE ON cycle_chunk
  BEGIN SELECT raise(ABORT, 'a cycle is never changed'); END;
CREATE TRIGGER cycle_chunk_kept BEFORE DELETE ON cycle_chunk
  BEGIN SELECT raise(ABORT, 'no cycle is taken out'); END;
CREATE TRIGGER cycle_word_unchanged BEFORE UPDATE ON cycle_word
  BEGIN SELECT raise(ABORT, 'a word is never changed'); END;
CREATE TRIGGER cycle_word_kept BEFORE DELETE ON cycle_word
  BEGIN SELECT raise(ABORT, 'no word is taken out'); END;

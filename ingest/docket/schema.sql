-- The docket: one case as it came in, in one SQLite file.
--
-- Nothing in it is ever changed or taken out. A correction is a new source that supersedes an old one, and every act has
-- its entry in the ledger. Hashes are SHA-256, 64 lower-case hex digits; times are UTC.
--
-- Large cycle logs have two tables more: cycles/cycle_chunks.sql.
--
-- A change to either: raise user_version, and add a step to schema.cpp that makes the very same text of the old one.

PRAGMA application_id = 1147366260; -- "Dckt"
PRAGMA user_version = 2;

-- Every act: who, when, what, and the hash of the entry before. How the hash is made is written in ledger.h.
CREATE TABLE ledger (
  number INTEGER PRIMARY KEY CHECK (number >= 1),
  at TEXT NOT NULL
    CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
  by_role TEXT NOT NULL,
  act TEXT NOT NULL CHECK (act <> '' AND act NOT GLOB '*[^a-z]*'),
  what TEXT NOT NULL,
  details TEXT NOT NULL CHECK (details LIKE '{%}'),
  previous TEXT NOT NULL CHECK (length(previous) = 64 AND previous NOT GLOB '*[^0-9a-f]*'),
  sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*')
) STRICT;

-- A file as it was given. `place` is its place among the sources of the case; a correction takes the place of what it
-- corrects. `form`: as_given; recoded where codes stand in place of names, and only the hash of the original is kept;
-- cycles_only for a very large log, of which the cycles are kept, and of its bytes the hash.
CREATE TABLE source (
  source INTEGER PRIMARY KEY CHECK (source >= 1),
  entry INTEGER NOT NULL REFERENCES ledger (number),
  place INTEGER NOT NULL CHECK (place >= 1),
  supersedes INTEGER UNIQUE REFERENCES source (source) CHECK (supersedes < source),
  file TEXT NOT NULL CHECK (file <> ''),
  reading TEXT NOT NULL, -- the options it was read with
  form TEXT NOT NULL CHECK (form IN ('as_given', 'recoded', 'cycles_only')),
  bytes INTEGER NOT NULL CHECK (bytes >= 0),
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  stored_bytes INTEGER NOT NULL CHECK (stored_bytes >= 0),
  stored_sha256 TEXT NOT NULL CHECK (length(stored_sha256) = 64 AND stored_sha256 NOT GLOB '*[^0-9a-f]*'),
  rows INTEGER NOT NULL CHECK (rows >= 0), -- of data, as the case counts them
  cells_sha256 TEXT NOT NULL CHECK (length(cells_sha256) = 64 AND cells_sha256 NOT GLOB '*[^0-9a-f]*'),
  CHECK (form <> 'as_given' OR (stored_bytes = bytes AND stored_sha256 = sha256)),
  CHECK (form <> 'cycles_only' OR stored_bytes = 0)
) STRICT;

-- The stored bytes, in parts of at most 4 MiB, each a zstd frame.
CREATE TABLE source_part (
  source INTEGER NOT NULL REFERENCES source (source) DEFERRABLE INITIALLY DEFERRED,
  part INTEGER NOT NULL CHECK (part >= 1),
  bytes INTEGER NOT NULL CHECK (bytes BETWEEN 1 AND 4194304),
  packed BLOB NOT NULL,
  PRIMARY KEY (source, part)
) STRICT;

-- The sheets of a workbook, or the one table of a CSV file. `notes`: what the reader could not put into rows, an array of
-- code, wrong, right, code ...
CREATE TABLE sheet (
  source INTEGER NOT NULL REFERENCES source (source) DEFERRABLE INITIALLY DEFERRED,
  sheet INTEGER NOT NULL CHECK (sheet >= 1),
  name TEXT NOT NULL,
  decimal_comma INTEGER NOT NULL CHECK (decimal_comma IN (0, 1)),
  notes TEXT NOT NULL CHECK (notes LIKE '[%]'),
  PRIMARY KEY (source, sheet)
) STRICT;

-- The rows of a sheet that are not blank, headers and notes among them. `number` is the row number the spreadsheet shows,
-- in CSV the line number. `cells` is an array: null, a text, a number, or {"kind", "number", "text"}.
CREATE TABLE sheet_row (
  source INTEGER NOT NULL,
  sheet INTEGER NOT NULL,
  place INTEGER NOT NULL CHECK (place >= 1),
  number INTEGER NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('taken', 'set_aside')),
  cells TEXT NOT NULL CHECK (cells LIKE '[%]'),
  PRIMARY KEY (source, sheet, place),
  FOREIGN KEY (source, sheet) REFERENCES sheet (source, sheet)
) STRICT;

-- The sources the case consists of now, in its order.
CREATE VIEW current_source AS
  SELECT * FROM source WHERE source NOT IN (SELECT supersedes FROM source WHERE supersedes IS NOT NULL)
  ORDER BY place, source;

-- Every row with where it came from and what became of it: taken, set_aside or superseded.
CREATE VIEW row_origin AS
  SELECT source.file, sheet.name AS sheet, sheet_row.number AS row,
         CASE WHEN source.source IN (SELECT supersedes FROM source) THEN 'superseded' ELSE sheet_row.state END AS state,
         sheet_row.cells, source.source, source.entry
  FROM sheet_row JOIN sheet USING (source, sheet) JOIN source USING (source);

CREATE TRIGGER ledger_in_order BEFORE INSERT ON ledger
  WHEN new.number <> (SELECT count(*) + 1 FROM ledger)
    OR new.previous <> coalesce((SELECT sha256 FROM ledger WHERE number = new.number - 1),
                                '0000000000000000000000000000000000000000000000000000000000000000')
  BEGIN SELECT raise(ABORT, 'an entry of the ledger follows the last one'); END;
CREATE TRIGGER ledger_unchanged BEFORE UPDATE ON ledger
  BEGIN SELECT raise(ABORT, 'the ledger is never changed'); END;
CREATE TRIGGER ledger_kept BEFORE DELETE ON ledger
  BEGIN SELECT raise(ABORT, 'nothing is taken out of the ledger'); END;

CREATE TRIGGER source_in_order BEFORE INSERT ON source
  WHEN new.source <> (SELECT count(*) + 1 FROM source) OR new.entry <> (SELECT max(number) FROM ledger)
  BEGIN SELECT raise(ABORT, 'a source follows the last one and belongs to the last entry of the ledger'); END;
CREATE TRIGGER source_unchanged BEFORE UPDATE ON source
  BEGIN SELECT raise(ABORT, 'a source is never changed'); END;
CREATE TRIGGER source_kept BEFORE DELETE ON source
  BEGIN SELECT raise(ABORT, 'no source is taken out'); END;

CREATE TRIGGER source_part_unchanged BEFORE UPDATE ON source_part
  BEGIN SELECT raise(ABORT, 'a source is never changed'); END;
CREATE TRIGGER source_part_kept BEFORE DELETE ON source_part
  BEGIN SELECT raise(ABORT, 'no source is taken out'); END;

CREATE TRIGGER sheet_unchanged BEFORE UPDATE ON sheet
  BEGIN SELECT raise(ABORT, 'a sheet is never changed'); END;
CREATE TRIGGER sheet_kept BEFORE DELETE ON sheet
  BEGIN SELECT raise(ABORT, 'no sheet is taken out'); END;

CREATE TRIGGER sheet_row_unchanged BEFORE UPDATE ON sheet_row
  BEGIN SELECT raise(ABORT, 'a row is never changed'); END;
CREATE TRIGGER sheet_row_kept BEFORE DELETE ON sheet_row
  BEGIN SELECT raise(ABORT, 'no row is taken out'); END;

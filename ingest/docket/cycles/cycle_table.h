// The stored cycles as a table for questions in SQL: read only, and there while the program has the file open.
//
// Format      cycle_log (source, row, started_at, cycle_s, cycle_is, unit, variant, station, shift, operator, wait_s,
//             helped_s, mark). started_at is text, 2026-11-03 06:12:40, with .fff where it has milliseconds; times are
//             seconds; a blank cell is NULL; cycle_is is `work` or `line`; several marks are divided by `;`
// Spec        "The Virtual Table Mechanism Of SQLite", sqlite.org/vtab.html, 2.3 (best index), 2.1.2 (eponymous)
// Subset      source = , and started_at with =, >=, >, <= or < and a text of the form above (or a day alone), leave out
//             blocks without unpacking them; only the columns asked for are unpacked
// Checked     tests/ingest/docket/cycles/cycle_store_test.cpp: the same answers as a table of plain rows
#pragma once

#include <string>

struct sqlite3;

namespace docket {

/// Makes `cycle_log` known to an open database.
void offer_cycle_table(sqlite3* database, const std::string& where);

} // namespace docket

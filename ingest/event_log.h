// Event logs of a line's control system as cycle logs.
//
// Format      XES (eXtensible Event Stream), plain or packed with gzip
// Spec        IEEE 1849 (2016), clause 4 the log, trace, event and attribute objects, clause 5 XML serialisation, clause 6
//             extensions: concept (concept:name, concept:instance), lifecycle (lifecycle:transition), organizational
//             (org:resource), time (time:timestamp). Clause numbers are from memory. RFC 1952 for gzip.
// Subset      A cycle is a `start` and the next `complete` of one activity in one trace, or one event with a duration
//             (an attribute cycle_s or duration_s, or with another unit of time in its name). concept:name of the event
//             is the station, of the trace the unit; org:resource is the operator; suspend to resume is waiting;
//             attributes named like a column of cycle_log fill it, on the event before those on the trace.
//             A row is an event, counted from 1: the one that starts the cycle.
// Deviations  words of the lifecycle in capitals; events outside of traces; times without a zone. A time stands for
//             the clock that is written, whatever its zone; only lengths are taken across zones.
// Checked     tests/ingest/event_log_test.cpp
#pragma once

#include "ingest/package/caps.h"
#include "ingest/table.h"

#include <string>
#include <string_view>

namespace docket {

/// True where the bytes begin as XML or as gzip does: nothing else that is read begins so.
bool may_be_event_log(std::string_view first_bytes);

/// Reads an event log as one table `cycle_log`; what was not taken over is in the table's notes. Throws Error
/// (input_has_faults) where the file is no event log, is damaged or cut short, holds no cycle, or passes a cap.
RawFile read_event_log(const std::string& path, const ReaderCaps& caps = {});

/// The same from the bytes of a file; `file` is its name without its folder.
RawFile parse_event_log(std::string_view bytes, const std::string& file, const ReaderCaps& caps = {});

} // namespace docket

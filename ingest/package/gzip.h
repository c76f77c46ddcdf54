// Gzip files unpacked as a stream, under caps.
//
// Format      GZIP
// Spec        RFC 1952, 2.2 file format (several members, one after the other), 2.3.1 member trailer (CRC32, ISIZE)
// Subset      any number of members; names and comments in the headers are passed over
// Deviations  zero bytes behind the last member, as tapes and block devices leave them
// Checked     tests/ingest/event_log_test.cpp: several members, every length cut, every byte flipped, a bomb
#pragma once

#include "ingest/package/package.h"

#include <string>
#include <string_view>

namespace docket {

bool is_gzip(std::string_view bytes);

/// `bytes` must outlive what is returned. Reading throws Error (input_has_faults) where a member is cut short, damaged
/// or fails its check sum, and where it all unpacks to more than the caps allow. `what` names the file: "event log".
ReadBytes open_gzip(std::string_view bytes, const std::string& file, const std::string& what, const ReaderCaps& caps);

} // namespace docket

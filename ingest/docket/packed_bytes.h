// Bytes packed for the docket.
//
// Format      one zstd frame with its size and its checksum
// Spec        RFC 8878 (Zstandard Compression)
// Checked     tests/ingest/docket/stored_form_test.cpp; tests/outside/docket_by_others.py unpacks them with zstd
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace docket {

std::string pack_bytes(std::string_view bytes);

/// The bytes again. Absent where they are not exactly `size` bytes or the frame is damaged; never asks for more memory
/// than `size`, whatever the frame says.
std::optional<std::string> unpack_bytes(std::string_view packed, std::size_t size);

} // namespace docket

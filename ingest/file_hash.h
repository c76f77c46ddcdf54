// SHA-256 of a file (FIPS 180-4).
//
// Checked     tests/ingest/csv_test.cpp: the examples of FIPS 180
#pragma once

#include <istream>
#include <memory>
#include <string>
#include <string_view>

namespace docket {

/// 64 lower-case hex digits of the bytes given.
std::string sha256_of(std::string_view bytes);

/// The same of a file, read piece by piece. Throws Error (could_not_be_done) where it can't be read.
std::string sha256_of_file(const std::string& path);

/// Opens a file to be read. Throws Error (could_not_be_done) where that can't be done.
std::unique_ptr<std::istream> open_file(const std::string& path);

/// Reads a whole file. Throws Error (could_not_be_done) where it can't be read.
std::string read_file_bytes(const std::string& path);

/// The name that messages and documents use for a file.
std::string name_without_folder(const std::string& path);

} // namespace docket

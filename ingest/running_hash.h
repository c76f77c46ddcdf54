// SHA-256 (FIPS 180-4) of bytes that come piece by piece.
//
// Checked     tests/ingest/csv_test.cpp: the examples of FIPS 180; tests/ingest/docket/stored_form_test.cpp: piece by piece
#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace Poco::Crypto {
class DigestEngine;
}

namespace docket {

/// The one place that hashes.
class RunningHash {
public:
  RunningHash();
  ~RunningHash();
  void add(std::string_view bytes);
  /// 64 lower-case hex digits of all that was added; then it starts anew.
  std::string hex();

private:
  std::unique_ptr<Poco::Crypto::DigestEngine> engine_;
};

} // namespace docket

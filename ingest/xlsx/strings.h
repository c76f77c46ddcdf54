// Strings of a workbook: shared, inline, rich.
//
// Spec        ISO/IEC 29500-1, 18.4.8 si, 18.4.12 t, 18.4.6 rPh (phonetic runs are not part of the text),
//             22.9.2.19 ST_Xstring (_xHHHH_), XML 1.0 2.10 (xml:space)
// Deviations  control characters written as _xHHHH_ stay as written, and so does half a surrogate pair
// Checked     tests/ingest/workbook_test.cpp
#pragma once

#include "ingest/package/xml.h"

#include <string>
#include <string_view>
#include <vector>

namespace docket {

std::string decode_xstring(std::string_view text);

/// Joins the runs of one `si` or `is`; told of every event inside it.
class StringCollector {
public:
  void start(std::string_view name, const XmlAttributes& attributes);
  void end(std::string_view name);
  void text(std::string_view piece);
  /// The string so far; begins anew.
  std::string take();

private:
  std::string joined_;
  std::string piece_;
  int skipped_depth_ = 0;
  bool in_text_ = false;
  bool keep_space_ = false;
};

std::vector<std::string> read_shared_strings(const Package& package, std::string_view part, const ReaderCaps& caps);

} // namespace docket

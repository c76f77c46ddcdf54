// The text of one OpenDocument cell: its paragraphs, joined by line breaks.
//
// Spec        OASIS OpenDocument 1.3 part 3 (ISO/IEC 26300-1): 5.1.3 p, 6.1.2 white space characters, 6.1.3 s,
//             6.1.4 tab, 6.1.5 line-break, 6.3 note, 14.1 annotation, 6.4 ruby
// Subset      text of paragraphs with spans, links and fields in them; annotations, notes, drawings and the upper text
//             of ruby are passed over
// Checked     tests/ingest/ods_test.cpp
#pragma once

#include "ingest/package/xml.h"

#include <string>
#include <string_view>

namespace docket {

/// Told of every event inside one paragraph after the other.
class ParagraphCollector {
public:
  void begin_paragraph();
  void start(std::string_view name, const XmlAttributes& attributes);
  void end();
  void text(std::string_view piece);

  const std::string& joined() const { return joined_; }
  void clear();

private:
  std::string joined_;
  int paragraphs_ = 0;
  int skipped_depth_ = 0;
  bool after_space_ = true; ///< White space at the start of a paragraph, or behind other, is none.
};

} // namespace docket

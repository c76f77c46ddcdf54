// XML as a stream of events, under caps. Document types are refused: no workbook has one, and entities can be made to
// exhaust the computer.
//
// Format      XML
// Spec        XML 1.0 (fifth edition); Namespaces in XML 1.0 as far as a prefix is cut off
// Checked     tests/ingest/workbook_test.cpp: entities that grow, deep nesting, an endless tag
#pragma once

#include "ingest/xlsx/package.h"

#include <functional>
#include <optional>
#include <string_view>

namespace docket {

/// The attributes of one tag, valid while its event lasts.
struct XmlAttributes {
  const char* const* names_and_values = nullptr; ///< name, value, name, value, ... null

  /// The value of the attribute so named, with or without a prefix.
  std::optional<std::string_view> find(std::string_view name) const;
};

/// Names come without prefix. The views are valid while the event lasts; text comes in pieces.
struct XmlEvents {
  std::function<void(std::string_view name, const XmlAttributes&)> start;
  std::function<void(std::string_view name)> end;
  std::function<void(std::string_view piece)> text;
};

/// Throws Error where the part is damaged, declares a document type or passes a cap. `most_bytes` is the part's own cap.
void read_xml_part(const Package& package, std::string_view name, const XmlEvents& events, const WorkbookCaps& caps,
                   std::int64_t most_bytes);

} // namespace docket

// XML as a stream of events, under caps. Document types are refused: no input has one, and entities can be made to
// exhaust the computer.
//
// Format      XML
// Spec        XML 1.0 (fifth edition); Namespaces in XML 1.0 as far as a prefix is cut off
// Checked     tests/ingest/workbook_test.cpp: entities that grow, deep nesting, an endless tag
#pragma once

#include "ingest/package/package.h"

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

/// Where XML comes from, and how messages name it.
struct XmlSource {
  std::string file; ///< Name without its folder.
  std::string what; ///< "workbook", "event log"
  std::string part; ///< Of a package; empty where the file itself is XML.
  ReadBytes read;
};

/// Tells `events` of all of it. Throws Error where the XML is damaged, declares a document type or passes a cap.
/// `most_bytes` is the source's own cap.
void read_xml(const XmlSource& source, const XmlEvents& events, const ReaderCaps& caps, std::int64_t most_bytes);

/// The same of one part of a workbook.
void read_xml_part(const Package& package, std::string_view name, const XmlEvents& events, const ReaderCaps& caps,
                   std::int64_t most_bytes);

} // namespace docket

#include "ingest/ods/ods.h"

#include "core/error.h"
#include "ingest/ods/content.h"
#include "ingest/package/xml.h"

#include <array>
#include <string>

namespace docket {

namespace {

[[noreturn]] void refuse(const std::string& file, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, file, what, remedy);
}

/// Part 2, 3.3: the first part says what the file is. Empty where there is no such part.
std::string media_type(const Package& package) {
  if (!has_part(package, "mimetype")) return {};
  std::array<char, 128> block{};
  const std::size_t got = open_part(package, "mimetype")(block);
  return {block.data(), got};
}

/// Part 2, 4.8 encryption-data: every encrypted part carries one in the manifest.
bool is_encrypted(const Package& package, const ReaderCaps& caps) {
  if (has_part(package, "encrypted-package")) return true;
  if (!has_part(package, "META-INF/manifest.xml")) return false;
  bool encrypted = false;
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes&) {
    if (name == "encryption-data") encrypted = true;
  };
  events.end = [](std::string_view) {};
  events.text = [](std::string_view) {};
  read_xml_part(package, "META-INF/manifest.xml", events, caps, caps.small_part_bytes);
  return encrypted;
}

} // namespace

bool is_open_document(const Package& package) {
  if (media_type(package).starts_with("application/vnd.oasis.opendocument")) return true;
  return has_part(package, "content.xml") && has_part(package, "META-INF/manifest.xml");
}

std::vector<RawTable> read_ods(const Package& package, const ReaderCaps& caps) {
  const std::string type = media_type(package);
  if (!type.empty() && !type.starts_with("application/vnd.oasis.opendocument.spreadsheet")) {
    refuse(package.file, "This is an OpenDocument file, but no workbook.",
           "Open it in the program that made it, and save its table as .ods or .xlsx.");
  }
  if (is_encrypted(package, caps)) {
    refuse(package.file, "This workbook is encrypted.",
           "Open it in a spreadsheet program, remove the password, and save it again.");
  }
  return read_content(package, caps);
}

} // namespace docket

#include "ingest/xlsx/xlsx.h"

#include "core/error.h"
#include "ingest/package/xml.h"
#include "ingest/xlsx/sheet.h"
#include "ingest/xlsx/strings.h"

#include <charconv>
#include <filesystem>
#include <map>
#include <optional>

namespace docket {

namespace {

[[noreturn]] void refuse(const std::string& file, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, file, what, remedy);
}

std::int64_t whole_number(std::optional<std::string_view> text) {
  std::int64_t number = -1;
  if (text) std::from_chars(text->data(), text->data() + text->size(), number);
  return number;
}

bool says_yes(std::optional<std::string_view> text) { return text == "1" || text == "true" || text == "on"; }

struct Relationship {
  std::string type; ///< Behind its last slash: worksheet, styles ... The rest of the address differs between editions.
  std::string part;
};

/// ISO/IEC 29500-2, 8.3: relative to the part the relationships belong to.
std::string resolve(std::string_view folder, std::string_view target) {
  const std::filesystem::path path =
      target.starts_with('/') ? std::filesystem::path(target.substr(1)) : std::filesystem::path(folder) / target;
  return path.lexically_normal().generic_string();
}

std::map<std::string, Relationship> read_relationships(const Package& package, const std::string& part,
                                                       const std::string& folder, const ReaderCaps& caps) {
  std::map<std::string, Relationship> relationships;
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) {
    if (name != "Relationship" || attributes.find("TargetMode") == "External") return;
    const auto id = attributes.find("Id"), type = attributes.find("Type"), target = attributes.find("Target");
    if (!id || !type || !target) return;
    relationships[std::string(*id)] = {std::string(type->substr(type->rfind('/') + 1)), resolve(folder, *target)};
  };
  events.end = [](std::string_view) {};
  events.text = [](std::string_view) {};
  read_xml_part(package, part, events, caps, caps.small_part_bytes);
  return relationships;
}

const Relationship* find_type(const std::map<std::string, Relationship>& relationships, std::string_view type) {
  for (const auto& [id, relationship] : relationships) {
    if (relationship.type == type) return &relationship;
  }
  return nullptr;
}

/// The part that lists the sheets; a binary workbook has another one.
std::string find_workbook_part(const Package& package, const ReaderCaps& caps) {
  std::string part = "xl/workbook.xml";
  if (has_part(package, "_rels/.rels")) {
    const auto relationships = read_relationships(package, "_rels/.rels", "", caps);
    if (const auto* document = find_type(relationships, "officeDocument")) part = document->part;
  }
  if (part.ends_with(".bin")) refuse(package.file, "Binary workbooks (.xlsb) are not read:", "save it as .xlsx.");
  return part;
}

struct SheetEntry {
  std::string name;
  std::string relationship;
};

std::vector<SheetEntry> read_sheet_list(const Package& package, const std::string& part, const ReaderCaps& caps,
                                        bool& date1904) {
  std::vector<SheetEntry> sheets;
  bool is_workbook = false, in_sheets = false;
  int depth = 0;
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) {
    if (depth++ == 0) is_workbook = name == "workbook";
    if (name == "workbookPr") date1904 = says_yes(attributes.find("date1904"));
    if (name == "sheets") in_sheets = true;
    if (!in_sheets || name != "sheet") return;
    const auto title = attributes.find("name"), id = attributes.find("id");
    if (!title || !id) refuse_damaged(package.file, part + ": a sheet without name or part");
    sheets.push_back({decode_xstring(*title), std::string(*id)});
  };
  events.end = [&](std::string_view name) {
    --depth;
    if (name == "sheets") in_sheets = false;
  };
  events.text = [](std::string_view) {};
  read_xml_part(package, part, events, caps, caps.small_part_bytes);
  if (!is_workbook) {
    refuse(package.file, "No workbook is in this file.",
           "Open the workbook in a spreadsheet program and save it as .xlsx.");
  }
  return sheets;
}

/// The number format of every cell style.
std::vector<NumberFormat> read_formats(const Package& package, const std::string& part, const ReaderCaps& caps) {
  std::vector<NumberFormat> formats;
  std::map<std::int64_t, NumberFormat> declared;
  bool in_styles = false;
  XmlEvents events;
  events.start = [&](std::string_view name, const XmlAttributes& attributes) {
    if (name == "numFmt") {
      const auto code = attributes.find("formatCode");
      if (code) declared[whole_number(attributes.find("numFmtId"))] = format_of_code(*code);
    } else if (name == "cellXfs") {
      in_styles = true;
    } else if (in_styles && name == "xf") {
      const std::int64_t number = whole_number(attributes.find("numFmtId"));
      const auto own = declared.find(number);
      formats.push_back(own != declared.end() ? own->second : built_in_format(number));
    }
  };
  events.end = [&](std::string_view name) {
    if (name == "cellXfs") in_styles = false;
  };
  events.text = [](std::string_view) {};
  read_xml_part(package, part, events, caps, caps.small_part_bytes);
  return formats;
}

} // namespace

std::vector<RawTable> read_xlsx(const Package& package, const ReaderCaps& caps) {
  std::vector<RawTable> tables;
  const std::string workbook = find_workbook_part(package, caps);
  if (!has_part(package, workbook)) {
    refuse(package.file, "No workbook is in this file.",
           "Open the workbook in a spreadsheet program and save it as .xlsx.");
  }
  const std::filesystem::path workbook_path(workbook);
  const std::string folder = workbook_path.parent_path().generic_string();
  const std::string list =
      (workbook_path.parent_path() / "_rels" / (workbook_path.filename().string() + ".rels")).generic_string();

  WorkbookFacts facts;
  const auto sheets = read_sheet_list(package, workbook, caps, facts.date1904);
  const auto relationships = read_relationships(package, list, folder, caps);
  if (const auto* part = find_type(relationships, "sharedStrings")) {
    facts.shared_strings = read_shared_strings(package, part->part, caps);
  }
  if (const auto* part = find_type(relationships, "styles")) facts.formats = read_formats(package, part->part, caps);

  for (const auto& sheet : sheets) {
    const auto found = relationships.find(sheet.relationship);
    if (found == relationships.end()) refuse_damaged(package.file, "sheet \"" + sheet.name + "\" has no part");
    // A sheet may also be one chart over the whole page; it has no cells.
    if (found->second.type != "worksheet") continue;
    tables.push_back(read_sheet(package, found->second.part, sheet.name, facts, caps));
  }
  return tables;
}

} // namespace docket

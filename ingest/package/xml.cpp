#include "ingest/package/xml.h"

#include "core/error.h"
#include "ingest/package/read_ahead.h"

#include <expat.h>

#include <cstring>
#include <exception>
#include <memory>
#include <new>
#include <string>

namespace docket {

namespace {

/// One walk over a short name: a sheet has millions of elements.
std::string_view without_prefix(const char* name) {
  const char* at = name;
  for (; *at != '\0'; ++at)
    if (*at == ':') name = at + 1;
  return {name, static_cast<std::size_t>(at - name)};
}

struct Parsing {
  XML_Parser parser = nullptr;
  const XmlEvents& events;
  int most_depth = 0;
  int depth = 0;
  bool document_type = false;
  bool too_deep = false;
  std::exception_ptr thrown; ///< An exception must not pass through expat, which is C.
};

template <typename Action>
void run(Parsing& parsing, const Action& action) {
  if (parsing.thrown) return;
  try {
    action();
  } catch (...) {
    parsing.thrown = std::current_exception();
    XML_StopParser(parsing.parser, XML_FALSE);
  }
}

void on_start(void* data, const char* name, const char** attributes) {
  auto& parsing = *static_cast<Parsing*>(data);
  if (++parsing.depth > parsing.most_depth) {
    parsing.too_deep = true;
    XML_StopParser(parsing.parser, XML_FALSE);
    return;
  }
  run(parsing, [&] { parsing.events.start(without_prefix(name), XmlAttributes{attributes}); });
}

void on_end(void* data, const char* name) {
  auto& parsing = *static_cast<Parsing*>(data);
  --parsing.depth;
  run(parsing, [&] { parsing.events.end(without_prefix(name)); });
}

void on_text(void* data, const char* text, int length) {
  auto& parsing = *static_cast<Parsing*>(data);
  run(parsing, [&] { parsing.events.text(std::string_view(text, static_cast<std::size_t>(length))); });
}

void on_document_type(void* data, const char*, const char*, const char*, int) {
  auto& parsing = *static_cast<Parsing*>(data);
  parsing.document_type = true;
  XML_StopParser(parsing.parser, XML_FALSE);
}

[[noreturn]] void refuse(const XmlSource& source, const std::string& what, const std::string& remedy) {
  throw Error(ErrorKind::input_has_faults, source.file, what, remedy);
}

/// "A part of the workbook <says> (xl/styles.xml).", "The event log <says>."
[[noreturn]] void refuse_asking_too_much(const XmlSource& source, const std::string& says) {
  const bool whole = source.part.empty();
  refuse(source,
         (whole ? "The " : "A part of the ") + source.what + " " + says + (whole ? "." : " (" + source.part + ")."),
         (source.what == "workbook" ? std::string("Open it in a spreadsheet program and save it again as .xlsx")
                                    : std::string("Export it again")) +
             "; if that does not help, ask where it came from.");
}

[[noreturn]] void refuse_broken(const XmlSource& source, XML_Parser parser) {
  const char* reason = XML_ErrorString(XML_GetErrorCode(parser));
  const std::string detail = (source.part.empty() ? "" : source.part + ", ") + "line " +
                             std::to_string(XML_GetCurrentLineNumber(parser)) + ": " +
                             (reason != nullptr ? reason : "unknown");
  if (source.what == "workbook") refuse_damaged(source.file, detail);
  refuse(source, "The " + source.what + " is damaged (" + detail + ").",
         "Copy it again from where it came, or export it again.");
}

[[noreturn]] void refuse_stopped(const Parsing& parsing, const XmlSource& source) {
  if (parsing.thrown) std::rethrow_exception(parsing.thrown);
  if (parsing.document_type)
    refuse_asking_too_much(source, "declares a document type, which no " + source.what + " does");
  if (parsing.too_deep)
    refuse_asking_too_much(source, "is nested more than " + std::to_string(parsing.most_depth) + " deep");
  refuse_broken(source, parsing.parser);
}

} // namespace

std::optional<std::string_view> XmlAttributes::find(std::string_view name) const {
  const auto is_name = [&](const char* written) {
    return std::strncmp(written, name.data(), name.size()) == 0 && written[name.size()] == '\0';
  };
  for (const char* const* at = names_and_values; *at != nullptr; at += 2) {
    if (is_name(*at)) return at[1];
  }
  for (const char* const* at = names_and_values; *at != nullptr; at += 2) {
    const char* const colon = std::strchr(*at, ':');
    if (colon != nullptr && is_name(colon + 1)) return at[1];
  }
  return std::nullopt;
}

void read_xml(const XmlSource& source, const XmlEvents& events, const ReaderCaps& caps, std::int64_t most_bytes) {
  const std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> owner(XML_ParserCreate(nullptr), &XML_ParserFree);
  if (!owner) throw std::bad_alloc();
  Parsing parsing{owner.get(), events, caps.depth, 0, false, false, nullptr};
  XML_SetUserData(owner.get(), &parsing);
  XML_SetElementHandler(owner.get(), on_start, on_end);
  XML_SetCharacterDataHandler(owner.get(), on_text);
  XML_SetStartDoctypeDeclHandler(owner.get(), on_document_type);

  constexpr int block_size = 128 << 10;
  std::int64_t fed = 0;
  for (;;) {
    auto* const block = static_cast<char*>(XML_GetBuffer(owner.get(), block_size));
    if (block == nullptr) throw std::bad_alloc();
    const std::size_t got = source.read({block, static_cast<std::size_t>(block_size)});
    fed += static_cast<std::int64_t>(got);
    if (fed > most_bytes) refuse_asking_too_much(source, "is larger than " + std::to_string(most_bytes >> 20) + " MiB");
    const bool last = got == 0;
    if (XML_ParseBuffer(owner.get(), static_cast<int>(got), last ? XML_TRUE : XML_FALSE) != XML_STATUS_OK)
      refuse_stopped(parsing, source);
    if (last) return;
    // A tag that does not end is scanned anew with every block.
    if (fed - XML_GetCurrentByteIndex(owner.get()) > caps.token_bytes)
      refuse_asking_too_much(source, "holds a tag that does not end");
  }
}

void read_xml_part(const Package& package, std::string_view name, const XmlEvents& events, const ReaderCaps& caps,
                   std::int64_t most_bytes) {
  read_xml({package.file, "workbook", std::string(name), read_ahead(open_part(package, name))}, events, caps,
           most_bytes);
}

} // namespace docket

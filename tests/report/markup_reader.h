// Reads a page as a parser would, far enough for the tests: tags in balance, the values of an attribute, bare text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace docket {

/// The first fault of nesting; empty where every tag is closed in order.
inline std::string find_unbalanced(std::string_view page) {
  std::vector<std::string> open;
  std::size_t at = page.find("<html");
  while ((at = page.find('<', at)) != std::string_view::npos) {
    const std::size_t end = page.find('>', at);
    if (end == std::string_view::npos) return "a tag without an end";
    const std::string_view tag = page.substr(at + 1, end - at - 1);
    at = end + 1;
    const bool closing = tag.starts_with('/');
    const std::string_view rest = closing ? tag.substr(1) : tag;
    const std::string name(rest.substr(0, rest.find_first_of(" /\n")));
    if (name == "meta" || tag.ends_with('/')) continue;
    if (name == "style" && !closing) at = page.find("</style", at);
    if (!closing) {
      open.push_back(name);
    } else if (open.empty() || open.back() != name) {
      return "</" + name + "> closes " + (open.empty() ? "nothing" : open.back());
    } else {
      open.pop_back();
    }
  }
  return open.empty() ? "" : "not closed: " + open.back();
}

inline std::vector<std::string> attribute_values(std::string_view page, std::string_view attribute) {
  std::vector<std::string> values;
  const std::string start = " " + std::string(attribute) + "=\"";
  for (std::size_t at = page.find(start); at != std::string_view::npos; at = page.find(start, at + 1)) {
    const std::size_t from = at + start.size();
    values.emplace_back(page.substr(from, page.find('"', from) - from));
  }
  return values;
}

/// What stands between the tags, with the references for signs undone and no-break spaces as blanks.
inline std::string bare_text(std::string_view page) {
  std::string out;
  for (std::size_t at = page.find("<body"); at < page.size(); ++at) {
    if (page[at] == '<') {
      at = page.find('>', at);
      if (at == std::string_view::npos) break;
    } else {
      out += page[at];
    }
  }
  const auto undo = [&](std::string_view reference, std::string_view sign) {
    for (std::size_t at = out.find(reference); at != std::string::npos; at = out.find(reference, at + 1)) {
      out.replace(at, reference.size(), sign);
    }
  };
  undo("&#160;", " ");
  undo("&#39;", "'");
  undo("&quot;", "\"");
  undo("&lt;", "<");
  undo("&gt;", ">");
  undo("&amp;", "&");
  return out;
}

} // namespace docket

#include "report/cli/entry_line.h"

#include "core/error.h"

#include <QDateTime>
#include <algorithm>

namespace docket {

namespace {

std::string utc_text(const QDateTime& at) { return at.toUTC().toString(Qt::ISODate).toStdString(); }

} // namespace

std::string time_of_entry(const CommandLine& line, const std::string& command) {
  const auto given = line.options.find("at");
  if (given == line.options.end()) return utc_text(QDateTime::currentDateTimeUtc());
  QDateTime at = QDateTime::fromString(QString::fromStdString(given->second), Qt::ISODate);
  if (at.isValid() && at.timeSpec() == Qt::LocalTime) at.setTimeSpec(Qt::UTC);
  if (!at.isValid() || at.toUTC().date().year() > 9999)
    throw Error(ErrorKind::wrong_usage, command, "--at \"" + given->second + "\" is no time.",
                "Write it as 2026-11-03T14:30:00Z; without a zone it is UTC.");
  return utc_text(at);
}

std::string role_of_entry(const CommandLine& line, const std::string& command) {
  constexpr std::size_t longest = 80;
  const auto given = line.options.find("by");
  if (given == line.options.end()) return "not given";
  const std::string& role = given->second;
  const bool plain =
      std::none_of(role.begin(), role.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; });
  if (role.find_first_not_of(' ') == std::string::npos || role.size() > longest || !plain)
    throw Error(ErrorKind::wrong_usage, command, "--by must be a role of 1 to 80 letters.",
                "For example: --by \"industrial engineering\"");
  return role;
}

CopyFor copy_for(const CommandLine& line, const std::string& command) {
  const auto given = line.options.find("for");
  if (given == line.options.end() || given->second == "joint") return CopyFor::joint;
  if (given->second == "review") return CopyFor::review;
  throw Error(ErrorKind::wrong_usage, command, "--for \"" + given->second + "\" can't be followed.",
              "Give joint (without notes, for everybody at the table) or review (everything).");
}

} // namespace docket

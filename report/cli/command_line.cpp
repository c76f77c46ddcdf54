#include "report/cli/command_line.h"

#include "core/error.h"
#include "ingest/reading/word_match.h"

#include <QCommandLineParser>
#include <QStringList>
#include <algorithm>

namespace docket {
namespace {

QString text(std::string_view utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

std::string see_help(std::string_view command) { return "See: " + std::string(command) + " --help"; }

std::string did_you_mean(std::string_view written, std::span<const std::string_view> candidates,
                         std::string_view before) {
  const auto nearest = nearest_word(written, candidates);
  return nearest ? "Did you mean " + std::string(before) + std::string(*nearest) + "? " : "";
}

std::string padded(std::string words, std::size_t width) {
  words.resize(std::max(width, words.size() + 2), ' ');
  return words;
}

std::string option_words(const OptionDeclaration& option) {
  return "--" + std::string(option.name) + (option.value.empty() ? "" : " " + std::string(option.value));
}

} // namespace

CommandLine read_command_line(const Command& command, std::span<const std::string> words) {
  const std::string called = "docket " + std::string(command.verb);
  QCommandLineParser parser;
  for (const OptionDeclaration& option : command.options)
    parser.addOption(QCommandLineOption(text(option.name), {}, text(option.value)));
  QStringList typed{text(called)};
  for (const std::string& word : words) typed.append(text(word));

  if (!parser.parse(typed)) {
    const QStringList unknown = parser.unknownOptionNames();
    if (unknown.isEmpty()) // the parser knows one more reason: a value that is missing, or one too many
      throw Error(ErrorKind::wrong_usage, called, parser.errorText().toStdString(), see_help(called));
    std::vector<std::string_view> names;
    for (const OptionDeclaration& option : command.options) names.push_back(option.name);
    const std::string name = unknown.front().toStdString();
    throw Error(ErrorKind::wrong_usage, called,
                "There is no option " + std::string(name.size() == 1 ? "-" : "--") + name + ".",
                did_you_mean(name, names, "--") + see_help(called));
  }
  CommandLine line;
  for (const QString& input : parser.positionalArguments()) line.inputs.push_back(input.toStdString());
  for (const OptionDeclaration& option : command.options) {
    const QStringList values = parser.values(text(option.name));
    if (values.size() > 1)
      throw Error(ErrorKind::wrong_usage, called, "--" + std::string(option.name) + " is given more than once.",
                  "Give it once. " + see_help(called));
    if (parser.isSet(text(option.name)))
      line.options[std::string(option.name)] = values.isEmpty() ? "" : values.front().toStdString();
  }
  return line;
}

const Command& find_command(std::span<const Command> commands, std::string_view verb) {
  std::vector<std::string_view> verbs;
  for (const Command& command : commands) {
    if (command.verb == verb) return command;
    verbs.push_back(command.verb);
  }
  throw Error(ErrorKind::wrong_usage, "docket", "There is no command \"" + std::string(verb) + "\".",
              did_you_mean(verb, verbs, "docket ") + see_help("docket"));
}

bool asks_for_help(std::span<const std::string> words) {
  return std::any_of(words.begin(), words.end(),
                     [](const std::string& word) { return word == "--help" || word == "-h"; });
}

std::string help_of_all(std::span<const Command> commands) {
  std::string help = "docket answers, for one station of a paced line: does the prescribed content fit in the time the "
                     "line gives?\n\nCommands\n";
  for (const Command& command : commands)
    help += "  " + padded("docket " + std::string(command.verb) + " " + std::string(command.arguments), 42) +
            std::string(command.help_line) + "\n";
  help += "\nINPUT is a workbook (XLSX, ODS), a folder of CSV files, a CSV file named after its table, or an event log "
          "(XES);\n"
          "for check and brief also a docket.\n"
          "Each command explains itself with --help. docket --version prints the version.\n"
          "\nFirst time: docket template station.xlsx, fill the sheets `case` and `standard`, then\n"
          "            docket brief station.xlsx --out casefile\n"
          "\nExit status: 0 done, whatever the finding; 1 the input has faults; 2 wrong usage; 3 it could not be done "
          "here;\n"
          "             4 a docket is not what was written.\n";
  return help;
}

std::string help_of(const Command& command) {
  std::string help = "docket " + std::string(command.verb) + " " + std::string(command.arguments) + "\n\n" +
                     std::string(command.help_text) + "\n";
  if (!command.options.empty()) help += "\nOptions\n";
  std::size_t width = 18;
  for (const OptionDeclaration& option : command.options) width = std::max(width, option_words(option).size() + 2);
  for (const OptionDeclaration& option : command.options)
    help += "  " + padded(option_words(option), width) + std::string(option.help) + "\n";
  return help;
}

} // namespace docket

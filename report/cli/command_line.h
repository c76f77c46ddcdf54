// What is typed after `docket`: one verb, its options and its inputs. Help texts and usage errors come from the same
// declarations.
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace docket {

struct OptionDeclaration {
  std::string_view name;  ///< without the two hyphens
  std::string_view value; ///< what follows it, in capitals; empty: nothing follows
  std::string_view help;
};

/// What was typed for one verb, checked against its declaration.
struct CommandLine {
  std::vector<std::string> inputs;
  std::map<std::string, std::string, std::less<>> options; ///< those given; the value is empty where none follows

  bool has(std::string_view option) const { return options.find(option) != options.end(); }
};

struct Command {
  std::string_view verb;
  std::string_view arguments; ///< as the help shows them
  std::string_view help_line; ///< one line of `docket --help`
  std::string_view help_text; ///< `docket VERB --help`, above the options
  std::span<const OptionDeclaration> options;
  int (*run)(const CommandLine&); ///< the exit status
};

/// `words`: what follows the verb. Throws Error (wrong_usage) on an option the command does not have, and on one without
/// its value.
CommandLine read_command_line(const Command& command, std::span<const std::string> words);

/// The command of this name. Throws Error (wrong_usage), with the nearest name, where there is none.
const Command& find_command(std::span<const Command> commands, std::string_view verb);

/// True where `--help` or `-h` is among the words.
bool asks_for_help(std::span<const std::string> words);

std::string help_of_all(std::span<const Command> commands);
std::string help_of(const Command& command);

} // namespace docket

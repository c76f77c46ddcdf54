#include "report/cli/commands.h"

#include <array>

namespace docket {
namespace {

constexpr std::array brief_options{
    OptionDeclaration{"out", "DIR", "the folder to write; it must be absent, empty, or hold an earlier run"},
    OptionDeclaration{"only", "WHAT", "html, json, or html,json (both are written without it)"},
    OptionDeclaration{"json", "", "print findings.json instead of the summary"},
};

constexpr std::array check_options{
    OptionDeclaration{"json", "", "print what was found as JSON"},
};

constexpr std::array template_options{
    OptionDeclaration{"tables", "", "print every table with its columns instead (Markdown; bold: needed)"},
};

constexpr std::array commands{
    Command{"template", "FILE.xlsx", "write the blank workbook",
            "Writes the blank workbook: a first sheet that explains the job, then a sheet for every table.\n"
            "Only `case` and `standard` must be filled. An existing file is never overwritten.",
            template_options, run_template},
    Command{"check", "INPUT... [--json]", "read a workbook and list what is wrong with it",
            "Reads the inputs as one case, lists every fault, question and warning (on stderr), and says which tables\n"
            "were found and what stays unanswered without the others. Writes nothing.",
            check_options, run_check},
    Command{"brief", "INPUT... --out DIR", "answer the question and write the case file",
            "Reads the inputs as one case, computes the finding and writes casefile.html and findings.json into DIR.\n"
            "An earlier run there is replaced as a whole. Where the input has a fault, nothing is written.",
            brief_options, run_brief},
};

} // namespace

std::span<const Command> all_commands() { return commands; }

} // namespace docket

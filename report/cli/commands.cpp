#include "report/cli/commands.h"

#include "report/cli/reading_line.h"

#include <array>

namespace docket {
namespace {

constexpr std::array brief_options = with_reading_options(std::array{
    OptionDeclaration{"out", "DIR", "the folder to write; it must be absent, empty, or hold an earlier run"},
    OptionDeclaration{"only", "WHAT", "html, json, pdf, or several, as in html,json (all are written without it)"},
    OptionDeclaration{"for", "READER", "joint (without notes, for everybody at the table; as without it) or review"},
    OptionDeclaration{"json", "", "print findings.json instead of the summary"},
});

constexpr std::array check_options = with_reading_options(std::array{
    OptionDeclaration{"json", "", "print what was found as JSON"},
});

constexpr std::array add_options = with_reading_options(std::array{
    OptionDeclaration{"by", "ROLE", "who adds, as a role, never a name; it stands in the ledger"},
    OptionDeclaration{"at", "TIME", "when, as 2026-11-03T14:30:00Z (without it: the clock)"},
    OptionDeclaration{"supersedes", "SOURCE", "the number or file name of what the file corrects, or none"},
    OptionDeclaration{"dry-run", "", "say what would be added, and write nothing"},
    OptionDeclaration{"json", "", "print what was added as JSON"},
});

constexpr std::array history_options{
    OptionDeclaration{"json", "", "print it as JSON"},
};

constexpr std::array seal_options{
    OptionDeclaration{"for", "READER", "joint (without notes, for everybody at the table; as without it) or review"},
    OptionDeclaration{"by", "ROLE", "who seals, as a role, never a name"},
    OptionDeclaration{"at", "TIME", "when, as 2026-11-03T14:30:00Z (without it: the clock)"},
};

constexpr std::array verify_options{
    OptionDeclaration{"json", "", "print what was found as JSON"},
};

constexpr std::array template_options{
    OptionDeclaration{"walk", "", "write the check list for a walk to the station instead; its rows are conditions"},
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
            "Reads the inputs as one case, computes the finding and writes casefile.html, casefile.pdf (the\n"
            "same on paper) and findings.json into DIR. An earlier run there is replaced as a whole. Where the input "
            "has a fault, nothing is written.",
            brief_options, run_brief},
    Command{"add", "CASE.docket INPUT...", "keep the files of a case in one file, with a ledger",
            "Adds the inputs to a docket, and makes it where it is not there. A docket holds the files as they came, "
            "their\n"
            "rows, and a ledger of every act; nothing in it is changed or taken out. The case with the new files is "
            "checked\n"
            "first: with a fault, nothing is added. A file that is in it already is recognised. A file of the same "
            "name with\n"
            "other content is a correction: it takes the place of the one before, which stays in the docket.",
            add_options, run_add},
    Command{"history", "CASE.docket [--json]", "list what was added to a docket, and what superseded what",
            "Lists the ledger of a docket and its files with their hashes, superseded ones too.", history_options,
            run_history},
    Command{"seal", "CASE.docket BAG.zip", "pack a docket and its case file so that every change shows",
            "Checks the docket, computes the case file, and writes both with the files the docket keeps into one bag\n"
            "(BagIt, RFC 8493): a ZIP file with a list of checksums that anybody can check without this program. The\n"
            "joint copy leaves out notes; the copy for review has everything.",
            seal_options, run_seal},
    Command{"verify", "BAG.zip|CASE.docket", "see whether a bag or a docket is as it was written",
            "Checks every file of a bag, its lists, the ledger and the sources of the docket in it, and computes the\n"
            "findings again. Of a docket: its ledger, and every stored byte and row. Exit status 4 where anything is\n"
            "not as it was written; it says which file.",
            verify_options, run_verify},
};

} // namespace

std::span<const Command> all_commands() { return commands; }

} // namespace docket

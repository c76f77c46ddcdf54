#include "ingest/blank_workbook_text.h"

#include <array>

namespace docket {

namespace {

using Style = Paragraph::Style;

constexpr std::array paragraphs{
    Paragraph{Style::title, "Start here"},
    Paragraph{Style::prose,
              "This workbook is about one station of a paced line, and one complaint: \"this job is overloaded, "
              "nobody can keep up\"."},
    Paragraph{Style::prose,
              "Filled in, it answers: does the prescribed work fit into the time the line gives, for trained "
              "people at normal pace? It does not judge anyone, and fitting in time does not mean safe."},
    Paragraph{Style::heading, "First of all"},
    Paragraph{Style::prose,
              "A safety or health matter is reported at once, in the way your plant has for it, and not through "
              "this file. The sheet referrals only notes that it was reported."},
    Paragraph{Style::prose, "Local law and the collective agreement come first, before anything written here."},
    Paragraph{Style::prose,
              "People stand here by code, never by name: for example A1 or OP-12. Keep the list of names and "
              "codes somewhere else."},
    Paragraph{Style::heading, "What is needed at least"},
    Paragraph{Style::prose,
              "The sheets case and standard. Each sheet more makes the answer surer; a sheet you have nothing "
              "for stays as it is. The list below says what is missing without it."},
    Paragraph{Style::heading, "Who fills what"},
    Paragraph{Style::prose, "The supervisor: the sheets case to checklist, in the order they stand in."},
    Paragraph{Style::prose, "The engineer: the sheets standard to efforts."},
    Paragraph{Style::prose,
              "settings, the last sheet, stays as it is unless your agreement says otherwise. Every change is "
              "printed in the case file."},
    Paragraph{Style::heading, "How to fill it in"},
    Paragraph{Style::prose,
              "One row for each thing, below the header. Columns whose header is shaded are needed, the others "
              "may stay blank. The order of the columns is free; the header names must stay."},
    Paragraph{Style::prose,
              "A row whose first cell begins with # is a note and is not read. Under each header stands one that "
              "says what belongs there; you may leave it, or write notes of your own the same way."},
    Paragraph{Style::prose,
              "Times are in seconds where the header ends in _s. If your times are in minutes, name the column "
              "_min instead; for hundredths of a minute _cmin, for TMU _tmu."},
    Paragraph{Style::prose, "Days are written 2026-11-03. Several names in one cell are divided by ;"},
    Paragraph{Style::heading, "What happens next"},
    Paragraph{Style::prose,
              "Save the workbook. Then run:   docket check FILE   It lists everything that cannot be read, with "
              "its row and what would be right. Correct it and run it again."},
    Paragraph{Style::prose,
              "Then run:   docket brief FILE --out casefile   It writes the case file into the folder casefile. "
              "Open casefile.html there."},
};

} // namespace

std::span<const Paragraph> first_sheet_paragraphs() { return paragraphs; }

std::string_view triggers_heading() {
  return "Safety and health matters that are passed on at once, without waiting for any study";
}

} // namespace docket

// A document as PDF: the blocks and words of the HTML page on paper of A4.
//
// Format    PDF 1.4 by Qt Gui, marked as PDF/A-1b. Marked, not validated: no validator is at hand
// Spec      ISO 19005-1 (PDF/A-1), level B; Adobe, PDF Reference, third edition (PDF 1.4)
// Method    blocks are set into slices (set_document), slices laid on pages (pages); a page is a drawing like a figure,
//           and is printed (paper); bookmarks and links are added (finish)
// Deviations  no tags for reading aloud: casefile.html has them
// Checked   tests/report/pdf_test.cpp; tests/outside/pdf_by_others.py: the words of the page, fonts, links, qpdf --check
#pragma once

#include "report/document.h"

#include <string>

namespace docket {

/// The same document gives the same bytes with the same version of the libraries behind it (Qt, zlib).
/// Throws Error (could_not_be_done) where it can't be printed.
std::string write_pdf(const Document& document);

} // namespace docket

// What the library leaves out or makes anew with every run: bookmarks and links are put into a printed PDF, its clock
// and its random number are taken out.
//
// Format    PDF 1.4
// Spec      Adobe, PDF Reference, third edition (PDF 1.4): 3.4 file structure (cross-reference table, trailer), 8.2.2
//           document outline, 8.4.5 link annotations; ISO 19005-1: 6.5.3 flags of annotations
// Subset    files as Qt 6 writes them: one cross-reference table, plain objects, a flat list of pages
// Method    changed objects are written once more at the end, with one new table of all objects
// Checked   tests/report/pdf_test.cpp; tests/outside/pdf_by_others.py (qpdf, pdfinfo)
#pragma once

#include "report/pdf/pages.h"

#include <string>

namespace docket::pdf {

/// The same pages give the same bytes. Throws Error (could_not_be_done) where the file is not built as assumed.
std::string finish_pdf(std::string printed, const Pages& pages, const std::string& language);

} // namespace docket::pdf

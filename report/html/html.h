// A document as one HTML page that needs nothing else: no script, no other file, no network.
//
// Format    HTML, UTF-8, inline style and SVG
// Spec      WHATWG HTML (living standard): 4.3 sections, 4.9 tables; W3C CSS Paged Media Module Level 3: @page and its
//           margin boxes; W3C Content Security Policy Level 3
// Deviations  margin boxes of @page are left out by some browsers, so the case number stands in the body too; a closed
//           `details` is not printed by some, so it is written open
// Checked   tests/report/html_test.cpp: nesting, ids, escaping, same bytes on a second run
#pragma once

#include "report/document.h"

#include <string>

namespace docket {

std::string write_html(const Document& document);

} // namespace docket

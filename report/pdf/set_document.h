// The blocks of a document set into slices, in their order: the same blocks, numbers and words as on the HTML page.
//
// Method    what stands before the first page break is the first page: its letters shrink until one page holds it
// Checked   tests/report/pdf_layout_test.cpp
#pragma once

#include "report/document.h"
#include "report/pdf/setting.h"

#include <vector>

namespace docket::pdf {

/// `setting` is that of a page at full size.
std::vector<Slice> set_document(const Document& document, const Setting& setting);

} // namespace docket::pdf

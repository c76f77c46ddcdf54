#include "report/pdf/pdf.h"

#include "report/pdf/finish.h"
#include "report/pdf/paper.h"
#include "report/pdf/set_document.h"

namespace docket {

std::string write_pdf(const Document& document) {
  pdf::Pages pages;
  std::string printed = pdf::print_pages(document.title, [&](const pdf::MeasureText& measure) {
    pages = pdf::lay_on_pages(pdf::set_document(document, {.measure = measure, .page_height = pdf::text_height}),
                              document.case_ref);
    return pages;
  });
  return pdf::finish_pdf(std::move(printed), pages, document.language);
}

} // namespace docket

#include "report/cli/case_files.h"

#include "report/case_document/case_document.h"
#include "report/findings_json.h"
#include "report/html/html.h"
#include "report/pdf/pdf.h"

namespace docket {

std::vector<RunFile> write_case_files(const Case& input, const Findings& findings, const Issues& issues,
                                      const WantedFiles& wanted) {
  std::vector<RunFile> files;
  if (wanted.html || wanted.pdf) {
    const Document document = build_case_document(input, findings, issues, wanted.copy);
    if (wanted.html) files.push_back({"casefile.html", write_html(document)});
    if (wanted.pdf) files.push_back({"casefile.pdf", write_pdf(document)});
  }
  if (wanted.json) files.push_back({"findings.json", write_findings_json(input, findings)});
  return files;
}

} // namespace docket

// The files of a case file, from a case and its findings: what brief writes, seal puts into a bag, and verify makes again.
#pragma once

#include "core/case.h"
#include "core/findings.h"
#include "core/issue.h"
#include "report/case_document/case_document.h"
#include "report/run_folder.h"

#include <vector>

namespace docket {

struct WantedFiles {
  bool html = true, json = true, pdf = true;
  CopyFor copy = CopyFor::joint;
};

std::vector<RunFile> write_case_files(const Case& input, const Findings& findings, const Issues& issues,
                                      const WantedFiles& wanted = {});

} // namespace docket

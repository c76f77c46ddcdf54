#include "report/version.h"

namespace docket {

std::string_view program_version() { return DOCKET_VERSION; }

} // namespace docket

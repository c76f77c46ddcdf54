#include "ingest/bag/bag_zip.h"

#include "core/error.h"

#include <Poco/DateTime.h>
#include <Poco/Exception.h>
#include <Poco/Path.h>
#include <Poco/Zip/Compress.h>

#include <fstream>

namespace docket {

namespace {

[[noreturn]] void refuse(const std::string& path) {
  throw Error(ErrorKind::could_not_be_done, path, "The file can't be written.",
              "Check that there is space and that you may write there. Nothing was left there.");
}

} // namespace

void write_bag_zip(const std::string& path, const std::string& folder, std::span<const BagFile> files) {
  const Poco::DateTime first_of_zip(1980, 1, 1); // the earliest a ZIP file can say
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  if (!out) refuse(path);
  try {
    Poco::Zip::Compress zip(out, true);
    for (const BagFile& file : files) {
      const std::unique_ptr<std::istream> in = file.open();
      zip.addFile(*in, first_of_zip, Poco::Path(folder + "/" + file.name, Poco::Path::PATH_UNIX),
                  Poco::Zip::ZipCommon::CM_STORE);
    }
    zip.close();
  } catch (const Poco::Exception&) {
    refuse(path);
  }
  out.close();
  if (!out) refuse(path);
}

} // namespace docket

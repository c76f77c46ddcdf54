#include "ingest/docket/packed_bytes.h"

#include <zstd.h>

#include <memory>
#include <new>

namespace docket {

namespace {

/// Text of plants packs to a fifth at this level, at some hundred megabytes a second.
constexpr int level = 3;

} // namespace

std::string pack_bytes(std::string_view bytes) {
  const std::unique_ptr<ZSTD_CCtx, decltype(&ZSTD_freeCCtx)> context(ZSTD_createCCtx(), &ZSTD_freeCCtx);
  if (!context) throw std::bad_alloc();
  ZSTD_CCtx_setParameter(context.get(), ZSTD_c_compressionLevel, level);
  ZSTD_CCtx_setParameter(context.get(), ZSTD_c_checksumFlag, 1);
  std::string packed(ZSTD_compressBound(bytes.size()), '\0');
  const std::size_t size = ZSTD_compress2(context.get(), packed.data(), packed.size(), bytes.data(), bytes.size());
  if (ZSTD_isError(size) != 0) throw std::bad_alloc(); // room is enough, so memory is the only reason
  packed.resize(size);
  return packed;
}

std::optional<std::string> unpack_bytes(std::string_view packed, std::size_t size) {
  std::string bytes(size, '\0');
  const std::size_t unpacked = ZSTD_decompress(bytes.data(), bytes.size(), packed.data(), packed.size());
  if (ZSTD_isError(unpacked) != 0 || unpacked != size) return std::nullopt;
  return bytes;
}

} // namespace docket

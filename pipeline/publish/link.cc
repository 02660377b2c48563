#include "publish/link.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace plyscribe::publish {
namespace {

constexpr std::string_view kPlace = "{seconds}";

}  // namespace

Link Link::of_media(std::string_view address) {
  if (address.empty()) return {};
  const char mark = address.find('#') == std::string_view::npos ? '#' : '&';
  return Link(fmt::format("{}{}t={}", address, mark, kPlace));
}

Result<Link> Link::parse(std::string_view pattern) {
  if (pattern.find(kPlace) == std::string_view::npos) {
    return Error{fmt::format("expected an address with {} in it, found '{}'", kPlace, pattern)};
  }
  return Link(std::string(pattern));
}

std::string Link::at(double seconds) const {
  std::string address = pattern_;
  const std::string digits =
      fmt::format("{}", static_cast<long long>(std::floor(std::max(0.0, seconds))));
  // From the back: the digits hold no place for another second.
  for (std::size_t at = address.rfind(kPlace); at != std::string::npos;
       at = address.rfind(kPlace)) {
    address.replace(at, kPlace.size(), digits);
  }
  return address;
}

}  // namespace plyscribe::publish

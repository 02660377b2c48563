// The registry: every kind stands here once.
#include <algorithm>

#include "publish/captions.h"
#include "publish/chapters.h"
#include "publish/drill_cards.h"
#include "publish/games.h"
#include "publish/kind.h"
#include "publish/pgn.h"
#include "publish/sheet.h"
#include "publish/slips.h"

namespace plyscribe::publish {
namespace {

constexpr const Kind* kKinds[] = {
    &kPgnKind, &kGamesKind, &kCaptionsKind, &kChaptersKind, &kSheetKind, &kCardsKind, &kSlipsKind,
};

}  // namespace

std::span<const Kind* const> kinds() { return kKinds; }

const Kind* find_kind(std::string_view name) {
  const auto* const it = std::find_if(std::begin(kKinds), std::end(kKinds),
                                      [&](const Kind* k) { return k->name == name; });
  return it == std::end(kKinds) ? nullptr : *it;
}

}  // namespace plyscribe::publish

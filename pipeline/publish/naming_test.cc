#include "publish/naming.h"

#include <gtest/gtest.h>

namespace plyscribe::publish {
namespace {

TEST(NamesOnly, TellsNamesFromSentences) {
  for (const char* name : {"knight f3", "night f three", "Nf3", "takes takes", "king takes",
                           "e2 to e4", "b takes c3", "O-O", "oo", "bishop takes on d5 check"}) {
    EXPECT_TRUE(names_only(name)) << name;
  }
  for (const char* sentence :
       {"the rook goes back to e1", "castle", "castles long", "with the pawn", "grab", "hits",
        "we take on c3", "our knight goes to f3", "take it", "exchange of queens", ""}) {
    EXPECT_FALSE(names_only(sentence)) << sentence;
  }
}

TEST(Spells, WordByWordOnly) {
  EXPECT_TRUE(spells("Knight takes e5", "Nxe5+"));
  EXPECT_TRUE(spells("bishop b5 check", "Bb5+"));
  EXPECT_TRUE(spells("c takes d5", "cxd5"));
  EXPECT_FALSE(spells("knight e5", "Nxe5"));
  EXPECT_FALSE(spells("takes e5", "Nxe5"));
  EXPECT_FALSE(spells("night takes e5", "Nxe5"));
}

TEST(BareCapture, IsNothingButTheVerb) {
  EXPECT_TRUE(bare_capture("takes"));
  EXPECT_TRUE(bare_capture("takes Takes"));
  EXPECT_FALSE(bare_capture("king takes"));
}

}  // namespace
}  // namespace plyscribe::publish

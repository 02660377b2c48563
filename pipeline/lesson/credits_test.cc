#include "lesson/credits.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::lesson {
namespace {

struct Row {
  const char *sentence, *player, *opponent, *event, *year;
};

std::vector<Credit> credits_of(const std::string& text) {
  const auto transcript = transcript::read_transcript("[0:05] " + text + "\n", "x");
  tests::Sketch s;
  s.transcript = *transcript;
  return credits(s.transcript, s.lesson());
}

TEST(Credits, NamesEventAndYearAreKeptAsHeard) {
  const Row rows[] = {
      {"I had this against Varnholt in the Hollenbrook Open, in ninety-three.", "", "Varnholt",
       "Hollenbrook Open", "ninety-three"},
      {"Which is how a boy called Torvik beat me in Hallensby in 2004.", "Torvik", "", "", "2004"},
      {"That was Verrick against Haldersby, Brackwater Open, twenty eleven, I think.", "Verrick",
       "Haldersby", "Brackwater Open", "twenty eleven"},
      {"Corvane beat Dubrec like this in Brannoc Bay in 2009.", "Corvane", "Dubrec", "", "2009"},
      {"A pupil of mine, Annelie Brandvoort, won that endgame against Szpilak at the Ellerswyk "
       "team cup in "
       "2015.",
       "Annelie Brandvoort", "Szpilak", "Ellerswyk team cup", "2015"},
      {"See Tollmarck against Ivesdal, Grand Prix of Nether Sound, 2008.", "Tollmarck", "Ivesdal",
       "Grand Prix of Nether Sound", "2008"},
      {"I had it versus Oravec-Lindt in Team Cup of Sorvanka, two thousand and four.", "",
       "Oravec-Lindt", "Team Cup of Sorvanka", "two thousand and four"},
      {"I played for the Lindmoor team cup, and I lost.", "", "", "Lindmoor team cup", ""},
  };
  for (const Row& row : rows) {
    const auto all = credits_of(row.sentence);
    ASSERT_EQ(all.size(), 1u) << row.sentence;
    EXPECT_EQ(all[0].player, row.player) << row.sentence;
    EXPECT_EQ(all[0].opponent, row.opponent) << row.sentence;
    EXPECT_EQ(all[0].event, row.event) << row.sentence;
    EXPECT_EQ(all[0].year, row.year) << row.sentence;
    EXPECT_EQ(all[0].span.heard, row.sentence);
    EXPECT_EQ(all[0].span.t, 5);
  }
}

TEST(Credits, TalkOfMovesNamesNobody) {
  for (const char* sentence :
       {"Against knight e4, you castle.", "White has two pawns against one.",
        "Queen against rook is won.", "What I do against h4 is simply h5.", "We open the position.",
        "They match my moves, Black is fine.", "The Sicilian is played against everything.",
        "Your score against the Sicilian.", "This is the crossroad of the Open Catalan."}) {
    EXPECT_TRUE(credits_of(sentence).empty()) << sentence;
  }
}

}  // namespace
}  // namespace plyscribe::lesson

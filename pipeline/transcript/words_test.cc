#include "transcript/words.h"

#include <gtest/gtest.h>

namespace plyscribe::transcript {
namespace {

MappedText mapped(std::string_view text) {
  MappedText m;
  m.append_verbatim(text, 0, text.size());
  return m;
}

// lead|text|trail of each token.
std::string split(std::string_view text) {
  std::string s;
  for (const Token& t : split_words(mapped(text))) {
    if (!s.empty()) s += ' ';
    s += t.lead + "|" + t.text + "|" + t.trail;
  }
  return s;
}

struct Row {
  const char* text;
  const char* tokens;
};

constexpr Row kRows[] = {
    // Blanks part words, marks stand beside them.
    {"So after c5, White takes.", "|So| |after| |c5|, |White| |takes|."},
    {"\t two \n words  ", "|two| |words|"},
    {"running? Good!", "|running|? |Good|!"},
    {"\"Nf3\" (he said)", "\"|Nf3|\" (|he| |said|)"},
    {"what?!", "|what|?!"},
    {"well...", "|well|..."},
    // Inner marks stay.
    {"it's the c-pawn, Caro-Kann", "|it's| |the| |c-pawn|, |Caro-Kann|"},
    {"players' 'em", "|players|' '|em|"},
    {"1,000 and/or 7:30", "|1,000| |and/or| |7:30|"},
    // What a terminal would obey is no part of a word.
    {"e4\x1B[31m \x7F \xC2\x9B", "|e4\xEF\xBF\xBD[31m| |\xEF\xBF\xBD| |\xEF\xBF\xBD|"},
    // Chess marks stay; judgements are marks.
    {"Nf3+ Qf7# Nf3+! e4!? Kh1??", "|Nf3+| |Qf7#| |Nf3+|! |e4|!? |Kh1|??"},
    {"O-O, 0-0-0. h8=Q e8(Q) exd6", "|O-O|, |0-0-0|. |h8=Q| |e8(Q)| |exd6|"},
    {"(e8(Q))", "(|e8(Q)|)"},
    {"+/- = +", "|+/-| |=| |+|"},
    // Move numbers.
    {"1. e4 e5 2. Nf3", "|1.| |e4| |e5| |2.| |Nf3|"},
    {"1... c5", "|1...| |c5|"},
    {"14.Re1 1...c5", "|14.Re1| |1...c5|"},
    {"12. O-O", "|12.| |O-O|"},
    {"on move 12. Then", "|on| |move| |12|. |Then|"},
    {"played in 1972. He won", "|played| |in| |1972|. |He| |won|"},
    // Dashes part words and go to the word before.
    {"Nf3\xE2\x80\x94wow", "|Nf3|\xE2\x80\x94 |wow|"},
    {"Nf3 - and", "|Nf3| || - |and|"},
    {"Nf3 \xE2\x80\x94 and", "|Nf3| || \xE2\x80\x94 |and|"},
    {"Nf3--and", "|Nf3|-- |and|"},
    {"e2\xE2\x80\x93"
     "e4 then \xE2\x80\x93 ok",
     "|e2-e4| |then| || \xE2\x80\x94 |ok|"},
    {"kni- knight", "|kni|- |knight|"},
    {"- Yes", "- || |Yes|"},
    {", so", "||, |so|"},
    {",", "||,"},
    {"-Yes", "-|Yes|"},
    // Fused words.
    {"e4,e5", "|e4|, |e5|"},
    {"well...then", "|well|... |then|"},
    {"what?No", "|what|? |No|"},
    {"takes.Then", "|takes|. |Then|"},
    {"e.g. U.S.A.", "|e.g|. |U.S.A|."},
    // Spellings.
    {"it\xE2\x80\x99s \xE2\x80\x9Cgood\xE2\x80\x9D\xE2\x80\xA6", "|it's| \"|good|\"..."},
    {"0\xE2\x80\x93"
     "0",
     "|0-0|"},
    {"B\xC3\x97"
     "f6",
     "|Bxf6|"},
    {"\xE2\x99\x98"
     "f3 \xE2\x99\x9E"
     "f6 \xE2\x99\x99"
     "e4 \xE2\x99\x95\xEF\xB8\x8E"
     "d1",
     "|Nf3| |Nf6| |e4| |Qd1|"},
    {"e\xCC\x81tude caf\xC3\xA9", "|\xC3\xA9tude| |caf\xC3\xA9|"},
    {"no\xC2\xA0"
     "break soft\xC2\xADhyphen",
     "|no| |break| |softhyphen|"},
    {"\xC2\xBFqu\xC3\xA9?", "\xC2\xBF|qu\xC3\xA9|?"},
    {"**bold** _it_ `code`", "**|bold|** _|it|_ `|code|`"},
    {"\xE2\x99\xAA song \xE2\x99\xAA", "\xE2\x99\xAA || |song| || \xE2\x99\xAA"},
    // Nothing.
    {"", ""},
    {" \n ", ""},
    {"\xE2\x99\x99", ""},
};

TEST(Words, AreSplitFromTheirMarks) {
  for (const Row& r : kRows) EXPECT_EQ(split(r.text), r.tokens) << r.text;
}

TEST(Words, KeepTheirPlace) {
  const std::string text =
      "(it\xE2\x80\x99s) \xE2\x99\x98"
      "f3, e4,e5";
  std::string places;
  for (const Token& t : split_words(mapped(text)))
    places += "[" + text.substr(t.origin.begin, t.origin.end - t.origin.begin) + "]";
  EXPECT_EQ(places,
            "[it\xE2\x80\x99s][\xE2\x99\x98"
            "f3][e4][e5]");
}

TEST(Words, OpeningMarksThatStandAloneWaitForTheirWord) {
  const auto tokens = split_words(mapped("so ( e4 )"));
  ASSERT_EQ(tokens.size(), 4u);
  EXPECT_EQ(tokens[1].lead, "(");
  EXPECT_EQ(tokens[3].trail, " )");
}

TEST(Words, EndsOfSentences) {
  for (const char* end : {".", "?", "!", "?!", "...", ".\"", ".)", " ..."})
    EXPECT_TRUE(ends_sentence(end)) << end;
  for (const char* no : {"", ",", ";", ":", "\"", "!,", "-", "?;"})
    EXPECT_FALSE(ends_sentence(no)) << no;
}

TEST(Words, WrittenMovesAreTold) {
  for (const char* m : {"e4", "exd5", "Nf3", "Nbd7", "R1e2", "Bxf6", "O-O", "0-0-0", "Kh1", "Nbxd2",
                        "N1xd2", "a8=Q", "e4e5"}) {
    EXPECT_TRUE(looks_like_move(m)) << m;
  }
  for (const char* m : {"", "e", "e9", "i4", "Now", "Bad", "Red", "axe", "Bob", "Queen", "Kate",
                        "be", "exit", "Rook"}) {
    EXPECT_FALSE(looks_like_move(m)) << m;
  }
}

// Unicode Standard Annex 15, canonical ordering: marks on one letter are put in order.
TEST(NormalForm, OrdersMarks) {
  EXPECT_EQ(normal_form(mapped("q\xCC\x87\xCC\xA3")).text, "q\xCC\xA3\xCC\x87");
}

}  // namespace
}  // namespace plyscribe::transcript

// Splits running text into words and the marks around them.
//
// Input: text with its origins. Output: tokens in order. Words are parted by white space and dashes
// ("—", "--", " - "); "e4,e5", "well...then" and "what?No" are parted too.
//
//   text            tokens (lead|text|trail)
//   "Nf3+!", he     "|Nf3+|!",   |he|
//   1. e4 e5        |1.|   |e4|   |e5|        a number's dot stays before a written move
//   14.Re1 1...c5   |14.Re1|   |1...c5|
//   (0–0—wow…       (|0-0|—   |wow|...
//   e8(Q) h8=Q Qf7# |e8(Q)|   |h8=Q|   |Qf7#|
//   Nf3 - and       |Nf3| -   |and|           a free dash keeps its blank
//
// Normal form: NFC; plain quotes, hyphens and "..."; × is x; figurines are piece letters, the
// pawn's none; control characters are U+FFFD. lead and trail hold only marks: quotes, brackets, . , ; : ! ? … dashes, and * _ ` ~
// ♪. Marks that stand alone are a token without text. Cost: linear; after kMostWords + 1
// tokens the rest is left out, since no lesson has so many.
#ifndef PLYSCRIBE_TRANSCRIPT_WORDS_H_
#define PLYSCRIBE_TRANSCRIPT_WORDS_H_

#include <string>
#include <string_view>
#include <vector>

#include "transcript/mapped_text.h"

namespace plyscribe::transcript {

struct Token {
  std::string lead, text, trail;
  Range origin;  // of text, without the marks
};

MappedText normal_form(MappedText text);
std::vector<Token> split_words(const MappedText& text);

// Do these marks end a sentence? "." "?!" '."' do, "," and "!," don't.
bool ends_sentence(std::string_view trail);

// Does a written move start here ("Nf3", "exd5", "O-O")?
bool looks_like_move(std::string_view text);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_WORDS_H_

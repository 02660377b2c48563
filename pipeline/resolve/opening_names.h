// Which names of the openings table the first minutes of a lesson speak.
//
//   name_likeness(lattice, "Open Catalan", 160)   // one number for each opening of the table
//
// A name's likeness is the sum over its words, the rare ones counting more: positive where a word
// was heard, a little negative where it was not. Words are compared by letters and by sound; where
// the recogniser wrote plain words, whole phrases of a name are looked for in the stream of sounds,
// across the word limits that it chose ("current can't").
// Cost: a few hundredths of a second.
#ifndef PLYSCRIBE_RESOLVE_OPENING_NAMES_H_
#define PLYSCRIBE_RESOLVE_OPENING_NAMES_H_

#include <string>
#include <string_view>
#include <vector>

#include "hearing/lattice.h"

namespace plyscribe::resolve {

// By index into lexicon::openings(). Looks at the title and the first `introduction` tokens.
std::vector<float> name_likeness(const hearing::Lattice& lattice, std::string_view title,
                                 std::size_t introduction);

// The words of a name that tell it from others, lower case, accents and marks gone.
std::vector<std::string> name_words(std::string_view name);

// 0..1: how alike a heard word and a name's word sound.
float likeness(const std::string& said, const std::string& heard);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_OPENING_NAMES_H_

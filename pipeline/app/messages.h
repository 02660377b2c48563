// What the program says on standard error: one line at a time, whatever stands in it.
#ifndef PLYSCRIBE_APP_MESSAGES_H_
#define PLYSCRIBE_APP_MESSAGES_H_

#include <string>
#include <string_view>

namespace plyscribe::app {

// File names may hold line ends, codes that a terminal obeys, marks that turn the writing direction
// and bytes that are no text: each byte of these becomes "\x0A". All else stays as it is.
std::string one_line(std::string_view text);

// "plyscribe: MESSAGE" as one line. Where it can't be written, there is nobody to tell.
void say(std::string_view message);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_MESSAGES_H_

// What the program was built of: version, commit where it is known, compiler, data. The same
// sources and compiler give the same text: no time, no machine, no folder.
#ifndef PLYSCRIBE_APP_BUILD_FACTS_H_
#define PLYSCRIBE_APP_BUILD_FACTS_H_

#include <string>

namespace plyscribe::app {

// "plyscribe 0.1.0", then what else there is to say, in lines of their own.
std::string build_facts();

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_BUILD_FACTS_H_

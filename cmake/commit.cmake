# Writes HEADER, which names the commit that FOLDER holds: COMMIT where it is given, else what git
# says ("-changed" where files differ from it), else "unknown". Left alone while that is the same, so
# that nothing is compiled again. Run at build time by pipeline/app/CMakeLists.txt.
if(NOT COMMIT AND EXISTS ${FOLDER}/.git)
  execute_process(COMMAND git -C ${FOLDER} describe --always --abbrev=12 --match= --dirty=-changed
                  OUTPUT_VARIABLE COMMIT OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
endif()
if(NOT COMMIT)
  set(COMMIT unknown)
endif()
file(CONFIGURE OUTPUT ${HEADER} @ONLY CONTENT [[
// Made by cmake/commit.cmake.
#ifndef PLYSCRIBE_GENERATED_COMMIT_H_
#define PLYSCRIBE_GENERATED_COMMIT_H_
namespace plyscribe {
inline constexpr char kCommit[] = "@COMMIT@";
}  // namespace plyscribe
#endif
]])

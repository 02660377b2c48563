# plyscribe_embed(TARGET SYMBOL FILE): the bytes of a data file as an object of the target.
#
#   include(${CMAKE_SOURCE_DIR}/cmake/embed.cmake)
#   plyscribe_embed(lexicon book_bin ${CMAKE_CURRENT_SOURCE_DIR}/book.bin)
#
#   #include "embedded/book_bin.h"
#   std::string_view bytes = plyscribe::embedded::book_bin;
#
# The view is a compile-time constant, so it may be used while other statics are set up; its bytes
# are aligned to 16 and followed by a zero byte that does not count. The assembler copies the file
# (.incbin): megabytes cost no compile time. A changed file is embedded anew at the next build.
# Call it in the CMakeLists.txt that makes the target.
include_guard(GLOBAL)

function(plyscribe_embed target symbol file)
  get_filename_component(file ${file} ABSOLUTE)
  set(header ${CMAKE_BINARY_DIR}/generated/embedded/${symbol}.h)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/embedded/${symbol}.cc)
  string(TOUPPER ${symbol} guard)
  file(CONFIGURE OUTPUT ${header} @ONLY CONTENT [[
#ifndef PLYSCRIBE_EMBEDDED_@guard@_H_
#define PLYSCRIBE_EMBEDDED_@guard@_H_
#include <string_view>
namespace plyscribe::embedded {
extern const std::string_view @symbol@;
}  // namespace plyscribe::embedded
#endif
]])
  set(script ${CMAKE_CURRENT_FUNCTION_LIST_DIR}/embed_source.cmake)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -D SYMBOL=${symbol} -D FILE=${file} -D SOURCE=${source} -P ${script}
    DEPENDS ${file} ${script}
    COMMENT "Embedding ${symbol}"
    VERBATIM)
  set_source_files_properties(${source} PROPERTIES OBJECT_DEPENDS ${file})
  target_sources(${target} PRIVATE ${source})
  target_include_directories(${target} PUBLIC $<BUILD_INTERFACE:${CMAKE_BINARY_DIR}/generated>)
endfunction()

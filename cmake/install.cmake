# What is installed, in two parts: the program with its man page and completions, and the library
# with its headers for programs in C++ (examples/tree shows one).
#
#   cmake --install build --prefix DIR [--component program|development]

install(TARGETS plyscribe RUNTIME COMPONENT program)
install(FILES LICENSE NOTICE README.md TYPE DOC COMPONENT program)
install(DIRECTORY docs DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program
        FILES_MATCHING PATTERN "*.md" PATTERN "*.png")
install(DIRECTORY ${CMAKE_BINARY_DIR}/share/ DESTINATION ${CMAKE_INSTALL_DATADIR} COMPONENT program)

# plyscribe::plyscribe is the way from a transcript to what is published. Its headers are those below
# and no others: pipeline/plyscribe.h includes what a program starts with.
set(stages support board transcript lexicon grammar hearing resolve lesson publish)
add_library(plyscribe_library INTERFACE)
target_link_libraries(plyscribe_library INTERFACE publish)
target_compile_features(plyscribe_library INTERFACE cxx_std_20)
set_target_properties(plyscribe_library PROPERTIES EXPORT_NAME plyscribe)
add_library(plyscribe::plyscribe ALIAS plyscribe_library)

install(TARGETS plyscribe_library plyscribe_options ${stages} EXPORT plyscribe
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}/plyscribe COMPONENT development)
set(headers plyscribe.h support/result.h board/types.h board/position.h board/notation.h
    transcript/transcript.h resolve/pin.h resolve/confidence.h resolve/decoding.h resolve/decode.h
    lesson/status.h lesson/lesson.h lesson/lesson_json.h lesson/pins.h publish/kind.h publish/link.h
    publish/notation.h publish/outline.h publish/pgn.h)
foreach(header ${headers})
  get_filename_component(folder ${header} DIRECTORY)
  install(FILES pipeline/${header} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/plyscribe/${folder}
          COMPONENT development)
endforeach()

set(config ${CMAKE_INSTALL_LIBDIR}/cmake/plyscribe)
install(EXPORT plyscribe NAMESPACE plyscribe:: FILE plyscribe-targets.cmake DESTINATION ${config}
        COMPONENT development)
include(CMakePackageConfigHelpers)
write_basic_package_version_file(${CMAKE_BINARY_DIR}/plyscribe-config-version.cmake
                                 COMPATIBILITY SameMinorVersion)
install(FILES cmake/plyscribe-config.cmake ${CMAKE_BINARY_DIR}/plyscribe-config-version.cmake
        DESTINATION ${config} COMPONENT development)

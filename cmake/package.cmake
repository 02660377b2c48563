# Debian packages, one for each part of install.cmake:
#
#   cmake --preset package && cmake --build --preset package && cpack --preset package
#
# dpkg-shlibdeps finds what the program is linked with. tests/install/clean_root.sh installs both
# into a fresh Debian 12 and uses them there.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME plyscribe)
set(CPACK_PACKAGE_CONTACT "plyscribe contributors <contributors@plyscribe.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_STRIP_FILES ON)

set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME plyscribe)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION games)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "turns the transcript of a chess lesson into its tree of moves
A speech recogniser's timed, misheard transcript goes in; a legal tree of moves comes out, each with
the second in which it was said, and what is published with a lesson: game file, captions, chapters,
study sheet and drill cards.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libplyscribe-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "libfmt-dev, libre2-dev, libicu-dev, libpugixml-dev, pkg-config")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "plyscribe as a library for programs in C++
Headers, static libraries and the CMake target plyscribe::plyscribe.")
include(CPack)

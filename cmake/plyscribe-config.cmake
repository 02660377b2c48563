# For find_package(plyscribe): the target plyscribe::plyscribe, and the libraries it is linked with.
include(CMakeFindDependencyMacro)
find_dependency(fmt)
find_dependency(PkgConfig)
pkg_check_modules(RE2 REQUIRED QUIET IMPORTED_TARGET re2)
pkg_check_modules(ICU REQUIRED QUIET IMPORTED_TARGET icu-uc icu-i18n)
pkg_check_modules(PUGIXML REQUIRED QUIET IMPORTED_TARGET pugixml)
include(${CMAKE_CURRENT_LIST_DIR}/plyscribe-targets.cmake)

# The Debian packages: cpack -G DEB makes boxproof (the program) and boxproof-dev (the library). What Debian lays out
# otherwise than cmake --install is done by debian_layout.cmake.
set(CPACK_PACKAGE_NAME boxproof)
set(CPACK_PACKAGE_VENDOR "the boxproof authors")
set(CPACK_PACKAGE_CONTACT "the boxproof authors <authors@boxproof.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "checks DC combiner boxes of photovoltaic arrays")
set(CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set(CPACK_COMPONENTS_ALL runtime dev)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ
                                                WORLD_EXECUTE)
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_LIST_DIR}/debian_layout.cmake)
set(CPACK_BOXPROOF_INSTALL ${CMAKE_CURRENT_LIST_DIR})
set(CPACK_BOXPROOF_STRIP ${CMAKE_STRIP})

set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_ENABLE_COMPONENT_DEPENDS OFF)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)

set(CPACK_DEBIAN_RUNTIME_PACKAGE_NAME boxproof)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_SECTION science)
set(CPACK_DEBIAN_RUNTIME_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_RUNTIME_DESCRIPTION
"Reads a design file with the combiner boxes of a site, does the arithmetic
of every box and holds it against the edition of the code that the
jurisdiction adopted. Given a field record, it holds plan, label and reality
against each other and judges the boxes as they were built.
.
An aid to review and no approval: the authority having jurisdiction decides.")

set(CPACK_DEBIAN_DEV_PACKAGE_NAME boxproof-dev)
set(CPACK_DEBIAN_DEV_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEV_PACKAGE_DEPENDS "libfmt-dev (>= ${fmt_major})")
set(CPACK_COMPONENT_DEV_DESCRIPTION
"This package has boxproof as a library: headers, a static library and a CMake
package. With it a program of one's own reads, judges and reports designs and
field records.")
include(CPack)

# What cmake --install puts where: the program with its manual, completions, schemas and examples (component
# runtime); the library with its headers and its CMake package (component dev).
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)
set(BOXPROOF_ZSH_DIR ${CMAKE_INSTALL_DATADIR}/zsh/site-functions CACHE STRING "Where zsh looks for completions")

set(made ${PROJECT_BINARY_DIR}/install)
add_custom_command(
  OUTPUT ${made}/man/boxproof.1
  COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:boxproof> -DINTO=${made} -DSCHEMAS=${PROJECT_SOURCE_DIR}/data/schema
          -P ${CMAKE_CURRENT_LIST_DIR}/make_pages.cmake
  DEPENDS boxproof ${CMAKE_CURRENT_LIST_DIR}/make_pages.cmake
  COMMENT "Writing the manual pages, completions and schemas" VERBATIM)
add_custom_target(boxproof_pages ALL DEPENDS ${made}/man/boxproof.1)

install(TARGETS boxproof RUNTIME COMPONENT runtime)
install(DIRECTORY ${made}/man/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT runtime)
install(FILES ${made}/bash/boxproof DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT runtime)
install(FILES ${made}/zsh/_boxproof DESTINATION ${BOXPROOF_ZSH_DIR} COMPONENT runtime)
install(DIRECTORY ${made}/schema DESTINATION ${CMAKE_INSTALL_DATADIR}/boxproof COMPONENT runtime)
install(FILES README.md LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT runtime)
install(DIRECTORY examples DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT runtime
        FILES_MATCHING PATTERN "*.json" PATTERN "*.csv" PATTERN pictures EXCLUDE)

# The package names fmt and Threads, which whoever links the library needs; its headers need neither.
install(TARGETS boxproof_library EXPORT boxproof_targets ARCHIVE COMPONENT dev
        INCLUDES DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(DIRECTORY include/boxproof DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT dev)
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/boxproof)
install(EXPORT boxproof_targets NAMESPACE boxproof:: FILE boxproofTargets.cmake DESTINATION ${package_dir} COMPONENT dev)
string(REGEX MATCH "^[0-9]+" fmt_major "${fmt_VERSION}")
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/boxproofConfig.cmake.in ${made}-cmake/boxproofConfig.cmake
                              INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${made}-cmake/boxproofConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${made}-cmake/boxproofConfig.cmake ${made}-cmake/boxproofConfigVersion.cmake DESTINATION ${package_dir}
        COMPONENT dev)

include(${CMAKE_CURRENT_LIST_DIR}/package.cmake)

# Run by CPack on what it installed, before it makes the packages: what Debian's policy asks for.
file(GLOB roots ${CPACK_TEMPORARY_DIRECTORY}/*/usr)
foreach(usr IN LISTS roots)
  string(REGEX REPLACE "^.*/([^/]+)/usr$" "\\1" component ${usr})
  string(TOUPPER ${component} component)
  set(doc ${usr}/share/doc/${CPACK_DEBIAN_${component}_PACKAGE_NAME})
  file(MAKE_DIRECTORY ${doc})
  # The license stands in the file "copyright".
  file(REMOVE ${doc}/LICENSE)
  file(COPY ${CPACK_BOXPROOF_INSTALL}/copyright ${CPACK_BOXPROOF_INSTALL}/changelog DESTINATION ${doc})
  file(GLOB packed ${usr}/share/man/man1/*.1)
  execute_process(COMMAND gzip -9n ${doc}/changelog ${packed} COMMAND_ERROR_IS_FATAL ANY)
  # Debian's zsh looks for the completions of packages here.
  if(EXISTS ${usr}/share/zsh/site-functions)
    file(RENAME ${usr}/share/zsh/site-functions ${usr}/share/zsh/vendor-completions)
  endif()
endforeach()

# Run when the program is built: has it write its manual pages, completions and schemas into the folder INTO. They are
# made of the commands themselves, so that none is missing and nothing is said twice.
file(REMOVE_RECURSE ${INTO})

function(write_output file)
  execute_process(COMMAND ${PROGRAM} ${ARGN} OUTPUT_VARIABLE text COMMAND_ERROR_IS_FATAL ANY)
  file(WRITE ${INTO}/${file} "${text}")
endfunction()

write_output(bash/boxproof completion bash)
write_output(zsh/_boxproof completion zsh)
file(STRINGS ${INTO}/bash/boxproof commands REGEX "^_boxproof_commands=")
string(REGEX MATCH "\"([a-z ]+)\"" commands "${commands}")
string(REPLACE " " ";" commands "${CMAKE_MATCH_1}")
write_output(man/boxproof.1 man)
foreach(command IN LISTS commands)
  write_output(man/boxproof-${command}.1 man ${command})
endforeach()

# Each whole in itself, unlike those of data/schema, which borrow from each other.
file(GLOB schemas RELATIVE ${SCHEMAS} ${SCHEMAS}/*.schema.json)
foreach(schema IN LISTS schemas)
  string(REPLACE ".schema.json" "" name ${schema})
  write_output(schema/${schema} schema ${name})
endforeach()

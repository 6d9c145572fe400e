# Prints what the completion offers for a line of words, each on a line. Arguments: the script, the folder to be in, the
# words behind "boxproof" as bash gives them to a completion (with = as a word of its own), the last of them begun.
# shellcheck source=/dev/null
source "$1" || exit 2
cd "$2" || exit 2
shift 2
COMP_WORDS=(boxproof "$@")
COMP_CWORD=$#
_boxproof boxproof
[[ ${#COMPREPLY[@]} -eq 0 ]] || printf '%s\n' "${COMPREPLY[@]}"

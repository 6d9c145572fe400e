# Prints what zsh offers for a line, each on a line: a shell of its own on a pseudo terminal, in which compadd, which all
# completions end in, writes down what fits. Arguments: the folder of the completion, the folder to be in, a file to
# write to, the words behind "boxproof" with blanks between.
zmodload zsh/zpty
export BOXPROOF_OFFERED=$3
rm -f $3
cat > $3.setup <<'SETUP'
PROMPT=
fpath=($1 $fpath)
cd $2
autoload -Uz compinit && compinit -u -D
zstyle ':completion:*' insert-tab false
bindkey '^I' complete-word
compadd() {
  local -a fitting options=("${@[1,(i)(-|--)]}")
  if [[ " $options " != *\ -[a-zA-Z12]#[OAD][a-zA-Z12]#\ * ]]; then
    builtin compadd -A fitting "$@"
    (( $#fitting )) && print -rl -- ${(Q)fitting} >> $BOXPROOF_OFFERED
  fi
  builtin compadd "$@"
}
finished() { print -r -- END >> $BOXPROOF_OFFERED }
comppostfuncs=(finished)
SETUP
zpty shell zsh -f -i
zpty -w shell "setopt extended_glob; set -- ${(q)1} ${(q)2}; source ${(q)3}.setup"
zpty -w -n shell "boxproof $4"$'\t'
integer waited=0
until [[ -s $3 && $(tail -n 1 $3) == END ]]; do
  (( ++waited < 200 )) || { print "no answer from zsh" && break }
  sleep 0.05
done
zpty -d shell
grep -v '^END$' $3 | sort -u

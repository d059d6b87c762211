# SPDX-License-Identifier: GPL-3.0-or-later
# usage: instructions.sh STEPS PROGRAM JOB: prints how many instructions each of the steps takes, and the whole process that plans the job as
# JSON with and without what the loader does first. They are the same from run to run, and differ from machine to machine.
steps=$1 program=$2 job=$3
count() {
  name=$1
  shift
  printf '%s ' "$name"
  valgrind --tool=callgrind --callgrind-out-file=/dev/null "$@" 2>&1 >/dev/null | sed -n 's/.*Collected : //p'
}
for step in $("$steps"); do count "$step" --toggle-collect=gatherwright_step "$steps" "$step"; done
count process_main --toggle-collect=main "$program" plan "$job" --json
count process "$program" plan "$job" --json

#!/bin/sh
# Audits the workbooks of a list in batches of 50 and writes recalculated copies.
#   batches.sh LIST FOLDER [further options of GNU parallel, for instance --sshlogin host1,host2]
# Run it again after a stop: what is done is passed over. FOLDER must be the same for all hosts.
set -eu
list=$1 folder=$2
shift 2
mkdir -p "$folder/batches" "$folder/lines" "$folder/copies"
split -l 50 -d -a 5 "$list" "$folder/batches/"

# One batch at a time on a host: recalc itself keeps all processors of its host busy.
# A batch ends with 1 when a cell differs and with 2 when a workbook cannot be read; neither stops the others.
parallel --jobs 1 --workdir . --joblog "$folder/jobs.log" --resume-failed "$@" \
  "${RECALC:-recalc}" --from {} --out-dir "$folder/copies" --resume "$folder/lines/{/}.jsonl" \
  ::: "$folder"/batches/* || true

workbooks=$(grep -c . "$list")
told=$(cat "$folder"/lines/*.jsonl | wc -l)
echo "$told of $workbooks workbooks told in $folder/lines"
[ "$told" -ge "$workbooks" ]

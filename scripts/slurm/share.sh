#!/bin/sh
# One task of a Slurm job array: it measures its share of a batch.
#
#   sbatch --array=0-39 scripts/slurm/share.sh PATH... --out DIR [OPTIONS]
#   holdfast gather DIR
#
# Paths, DIR and the program must be the same on all nodes. The array must be one
# whole range: its length is the number of shares. A task that is requeued, because
# its node failed or was taken away, goes on where it was.
#SBATCH --job-name=holdfast
#SBATCH --requeue
#SBATCH --open-mode=append

"${HOLDFAST:-holdfast}" batch --share array "$@"
code=$?
# Clips that cannot be read are part of the result, and no reason to run again.
if [ "$code" -eq 7 ]; then exit 0; fi
exit "$code"

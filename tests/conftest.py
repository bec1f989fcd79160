"""One thread for small sparse solves: a second one only waits for the first, and on a busy machine it waits long."""

import os

for library in ("OPENBLAS", "OMP", "MKL"):
    os.environ.setdefault(f"{library}_NUM_THREADS", "1")

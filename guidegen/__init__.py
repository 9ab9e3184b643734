"""guidegen publishes illustrated painting guides as a checked static site."""

import os

__version__ = "0.1.0"

# Linear algebra in one thread, told before numpy is loaded: workers have all the cores already, and the threads of
# OpenBLAS and its like wait for one another by turning in circles, which doubled the processor time of a build.
for _limit in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "VECLIB_MAXIMUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_limit, "1")

# Solves a sparse system with scipy; prints the least time of three in seconds and
# the sum of the squares of the solution.
import sys
import time

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as la

with open(sys.argv[1], "rb") as f:
    n, entries = np.fromfile(f, "<i8", 2)
    rows = np.fromfile(f, "<i8", entries)
    columns = np.fromfile(f, "<i8", entries)
    values = np.fromfile(f, "<f8", entries)
    right = np.fromfile(f, "<f8", n)
matrix = sp.csc_matrix((values, (rows, columns)), shape=(n, n))
best = float("inf")
for _ in range(3):
    start = time.perf_counter()
    x = la.splu(matrix, permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True}).solve(right)
    best = min(best, time.perf_counter() - start)
print(best, float(x @ x))

# Solves the sparse system on its input with scipy; prints the least time of three in
# seconds and the sum of the squares of the solution.
import sys
import time

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as la

data = sys.stdin.buffer.read()
n, entries = np.frombuffer(data, "<i8", 2)
at = 16


def take(kind, count):
    global at
    part = np.frombuffer(data, kind, count, at)
    at += 8 * count
    return part


rows, columns, values, right = take("<i8", entries), take("<i8", entries), take("<f8", entries), take("<f8", n)
matrix = sp.csc_matrix((values, (rows, columns)), shape=(n, n))
best = float("inf")
for _ in range(3):
    start = time.perf_counter()
    x = la.splu(matrix, permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True}).solve(right)
    best = min(best, time.perf_counter() - start)
print(best, float(x @ x))

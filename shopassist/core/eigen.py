"""Eigenvalues and eigenvectors of a small symmetric matrix, by Jacobi's rotations."""

from math import copysign, hypot

Matrix = list[list[float]]

SWEEPS = 60
"""Far more than needed: a matrix of twelve rows settles within ten."""
SMALL = 1e-30
"""Squares of what is left beside the diagonal, as a share of the whole."""


def eigen(matrix: Matrix) -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...]]:
    """Eigenvalues in rising order, and the eigenvectors as rows in the same order."""
    size = len(matrix)
    work = [row[:] for row in matrix]
    turned = [[float(i == j) for j in range(size)] for i in range(size)]
    whole = sum(each * each for row in work for each in row)
    for _ in range(SWEEPS):
        if _beside(work) <= SMALL * whole:
            break
        for p in range(size - 1):
            for q in range(p + 1, size):
                if work[p][q]:
                    _rotate(work, turned, p, q)
    order = sorted(range(size), key=lambda k: work[k][k])
    vectors = tuple(tuple(turned[i][k] for i in range(size)) for k in order)
    return tuple(work[k][k] for k in order), vectors


def _beside(work: Matrix) -> float:
    return sum(work[p][q] ** 2 for p in range(len(work)) for q in range(len(work)) if p != q)


def _rotate(work: Matrix, turned: Matrix, p: int, q: int) -> None:
    """Turn the plane of two axes so that their common entry becomes zero."""
    theta = (work[q][q] - work[p][p]) / (2 * work[p][q])
    tangent = copysign(1.0, theta) / (abs(theta) + hypot(theta, 1.0))
    cosine = 1 / hypot(tangent, 1.0)
    sine = tangent * cosine
    for row in work:
        row[p], row[q] = cosine * row[p] - sine * row[q], sine * row[p] + cosine * row[q]
    upper, lower = work[p], work[q]
    work[p] = [cosine * a - sine * b for a, b in zip(upper, lower, strict=True)]
    work[q] = [sine * a + cosine * b for a, b in zip(upper, lower, strict=True)]
    for row in turned:
        row[p], row[q] = cosine * row[p] - sine * row[q], sine * row[p] + cosine * row[q]

"""Logistic regression with a ridge, by Newton's method: small, exact, the same on every run.

Hastie, Tibshirani, Friedman, "The Elements of Statistical Learning", 2nd edition, 4.4.1 and 18.4.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]

STEPS = 30
NEAR = 1e-8  # change of the weights at which the fit has settled
FARTHEST = 30.0  # log-odds beyond which a probability is 0 or 1


def fit(clues: Vector, wrong: Vector, weights: Vector, ridge: float) -> Vector:
    """The bias and a weight for each column of `clues` (rows, columns).

    `wrong` is 0 or 1 for each row, `weights` how much the row counts; `ridge` pulls the weights, not the
    bias, towards 0.
    """
    rows = np.column_stack([np.ones(len(clues)), clues])
    pull = np.eye(rows.shape[1]) * ridge
    pull[0, 0] = 1e-6
    found = np.zeros(rows.shape[1])
    for _ in range(STEPS):
        chance = 1 / (1 + np.exp(-np.clip(rows @ found, -FARTHEST, FARTHEST)))
        slope = rows.T @ (weights * (wrong - chance)) - pull @ found
        bend = (rows * (weights * chance * (1 - chance))[:, None]).T @ rows + pull
        change = np.linalg.solve(bend, slope)
        found = found + change
        if np.abs(change).max() < NEAR:
            break
    return found

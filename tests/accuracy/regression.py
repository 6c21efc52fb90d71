"""Logistic regression: small, exact, the same on every run.

With a ridge, by Newton's method: Hastie, Tibshirani, Friedman, "The Elements of Statistical Learning", 2nd
edition, 4.4.1 and 18.4. As a lasso, by accelerated proximal steps: Beck and Teboulle 2009, "A fast iterative
shrinkage-thresholding algorithm for linear inverse problems".
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]

STEPS = 30
NEAR = 1e-8  # change of the weights at which the fit has settled
PROXIMAL_STEPS = 1000
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


def lasso(clues: Vector, wrong: Vector, weights: Vector, pull: float) -> Vector:
    """As `fit`, but most weights come out as 0: `pull` is what each must add to the likelihood."""
    rows = np.column_stack([np.ones(len(clues)), clues])
    free = np.arange(rows.shape[1]) == 0
    stride = 4 / np.linalg.norm(rows * np.sqrt(weights)[:, None], 2) ** 2
    found, ahead, pace = np.zeros(rows.shape[1]), np.zeros(rows.shape[1]), 1.0
    for _ in range(PROXIMAL_STEPS):
        chance = 1 / (1 + np.exp(-np.clip(rows @ ahead, -FARTHEST, FARTHEST)))
        moved = ahead + stride * (rows.T @ (weights * (wrong - chance)))
        shrunk = np.sign(moved) * np.maximum(np.abs(moved) - np.where(free, 0.0, stride * pull), 0.0)
        pace, last = (1 + np.sqrt(1 + 4 * pace**2)) / 2, pace
        ahead = shrunk + (last - 1) / pace * (shrunk - found)
        change, found = np.abs(shrunk - found).max(), shrunk
        if change < NEAR:
            break
    return found

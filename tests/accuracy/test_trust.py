"""The regression against closed forms, and the reliability table on made-up judgements."""

from __future__ import annotations

from math import isclose, log

import numpy as np

from tests.accuracy.regression import fit, lasso
from tests.accuracy.reliability import Held, bins, calibration_error

FREE = 1e-9


def fitted(rows: list[tuple[float, float, float]]) -> list[float]:
    """Bias and weight for rows of (clue, wrong, how much it counts)."""
    clue, wrong, counts = (np.array(column) for column in zip(*rows, strict=True))
    return [float(value) for value in fit(clue[:, None], wrong, counts, FREE)]


def test_one_clue_gives_the_log_odds_ratio_of_its_table() -> None:
    """Agresti, "Categorical Data Analysis", 5.1: with one binary clue the weight is the log odds ratio."""
    bias, weight = fitted([(0, 0, 30), (0, 1, 10), (1, 0, 20), (1, 1, 60)])
    assert isclose(bias, log(10 / 30), abs_tol=1e-6)
    assert isclose(weight, log((60 / 20) / (10 / 30)), abs_tol=1e-6)


def test_the_ridge_pulls_weights_towards_nothing() -> None:
    rows = np.array([[0.0], [0.0], [1.0], [1.0]])
    wrong, counts = np.array([0.0, 0.0, 1.0, 1.0]), np.ones(4)
    free, tame = (float(fit(rows, wrong, counts, ridge)[1]) for ridge in (0.1, 10.0))
    assert 0 < tame < free


def test_the_lasso_without_a_pull_is_the_plain_fit() -> None:
    rows = np.array([[0.0], [0.0], [1.0], [1.0]])
    wrong, counts = np.array([0.0, 1.0, 0.0, 1.0]), np.array([30.0, 10.0, 20.0, 60.0])
    assert np.allclose(lasso(rows, wrong, counts, 0.0), fit(rows, wrong, counts, FREE), atol=1e-4)


def test_the_lasso_drops_what_adds_little() -> None:
    """At 0 the slope of the likelihood is 15 notes for the first clue, 5 for the second."""
    rows = np.array([[0.0, 0.0], [0.0, 1.0], [1.0, 0.0], [1.0, 1.0]])
    wrong, counts = np.array([0.0, 0.0, 1.0, 1.0]), np.array([20.0, 10.0, 10.0, 20.0])
    _, first, second = lasso(rows, wrong, counts, 6.0)
    assert first > 0
    assert second == 0


def test_the_table_counts_and_the_error_weighs() -> None:
    held = [Held(0.96, True)] * 3 + [Held(0.96, False)] + [Held(0.6, True)] * 4
    low, high = bins(held)
    assert (low.count, low.right, high.count, high.right) == (4, 1.0, 4, 0.75)
    assert isclose(calibration_error([low, high]), (0.4 + 0.21) / 2)

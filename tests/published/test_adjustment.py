"""The adjustment against textbook networks, and the chances it uses against printed tables.

Krumm, *Geodetic Network Adjustment Examples*, rev. 3.5, Geodätisches Institut, Universität Stuttgart, 2020, prints
inputs and results of examples from textbooks (quoted: read where others test against them).
"""

import math

import numpy as np
import pytest

from rodbook.survey.adjusting import least_squares
from rodbook.survey.chance import chi_square_limit, chi_square_tail, noticed_shift, outlier_limit
from rodbook.survey.shape import agreement_of


def _linear(slopes, constants):
    return lambda x: (slopes @ x + constants, slopes)


def test_a_weighted_level_net():
    """Krumm example 2.1, pages 6 to 9, after Ghilani, *Adjustment Computations*, 5th edition, 2010, example 12.6.

    A held at 437.596 m. Errata (quoted): the book's own S0 of 0.6575 is no square root of its figures; Krumm has 0.6512.
    """
    slopes = np.array([[1, 0, 0], [0, 1, 0], [-1, 1, 0], [-1, 0, 1], [0, -1, 1], [0, 0, -1]], float)
    constants = np.array([-437.596, -437.596, 0, 0, 0, 437.596])
    read = np.array([10.509, 15.881, 5.360, -3.167, -8.523, -7.348])
    errors = np.array([0.006, 0.012, 0.004, 0.004, 0.005, 0.003])
    found = least_squares(_linear(slopes, constants), read, errors, np.full(3, 440.0))
    assert found.unknowns == pytest.approx([448.10871, 453.46847, 444.94361], abs=0.5e-5)
    assert found.residuals * 1000 == pytest.approx([3.71, -8.53, -0.24, 1.89, -1.86, 0.39], abs=0.0051)
    assert (found.degrees, found.misfit) == (3, pytest.approx(1.27212, abs=0.5e-5))
    factor = math.sqrt(found.misfit / found.degrees)
    assert factor == pytest.approx(0.6512, abs=0.5e-4)
    assert np.sqrt(np.diagonal(found.cofactors)) * factor * 1000 == pytest.approx([2.30, 2.64, 1.76], abs=0.0051)


def test_a_quadrilateral_of_measured_lengths():
    """Krumm example 3.1.1, pages 48 to 50, after Benning, 2011, example 8-2: the shape of an opening, a kilometre wide.

    Points 1 (0, 1000) and 2 (1000, 1000) held; five lengths, each with a standard error of 10 mm. [m]
    """
    held = {1: (0.0, 1000.0), 2: (1000.0, 1000.0)}
    pairs = [(1, 3), (1, 4), (2, 3), (2, 4), (3, 4)]

    def model(x):
        at = {**held, 3: x[:2], 4: x[2:]}
        lengths, slopes = [], np.zeros((5, 4))
        for row, (p, q) in enumerate(pairs):
            way = np.subtract(at[q], at[p])
            lengths.append(np.hypot(*way))
            for point, sign in ((p, -1), (q, 1)):
                if point > 2:
                    slopes[row, 2 * (point - 3) : 2 * (point - 3) + 2] = sign * way / lengths[-1]
        return np.array(lengths), slopes

    read = np.array([1000.020, 1414.200, 1414.240, 999.980, 1000.000])
    found = least_squares(model, read, np.full(5, 0.010), np.array([0.0, 0.0, 1000.0, 0.0]))
    assert found.unknowns == pytest.approx([-0.0096, -0.0226, 999.9930, 0.0174], abs=0.6e-4)
    assert found.residuals * 100 == pytest.approx([0.260, -0.368, -0.368, 0.260, 0.260], abs=0.0006)
    factor = math.sqrt(found.misfit / found.degrees)
    assert factor * 10 == pytest.approx(6.882, abs=0.01)  # [mm]; printed from rounded residuals
    assert np.sqrt(np.diagonal(found.cofactors)) * factor * 100 == pytest.approx(
        [0.901, 0.637, 0.901, 0.637], abs=0.006
    )


def test_a_level_net_and_its_chi_square_bounds():
    """Data of Strang and Borre, *Linear Algebra, Geodesy, and GPS*, 1997, adjusted with 6 mm for a root kilometre.

    Printed by a reader in the rplstoday.com thread "How would you adjust this leveling data?" (seen): sum of squares
    4.636, error factor 1.243, bounds of the factor at 5% 0.268 and 1.765, three degrees of freedom. [m]
    """
    slopes = np.array([[1, 0], [0, 1], [1, 0], [0, 1], [-1, 1]], float)
    constants = np.array([-10.021, -10.021, -10.321, -11.002, 0])
    read = np.array([0.732, 1.978, 0.420, 0.988, 1.258])
    errors = 0.006 * np.sqrt(np.array([0.970, 1.002, 1.070, 1.110, 0.890]))
    test = agreement_of(least_squares(_linear(slopes, constants), read, errors, np.array([10.7, 12.0])))
    assert (test.degrees_of_freedom, test.misfit) == (3, pytest.approx(4.636, abs=0.0006))
    assert math.sqrt(test.variance_factor) == pytest.approx(1.243, abs=0.0006)
    bounds = [math.sqrt(limit / 3) for limit in (test.least, test.most)]
    assert bounds == pytest.approx([0.268, 1.765], abs=0.0005)
    assert test.sentence == "The readings agree as their standard errors let expect."


def test_limit_of_the_standardised_residual():
    """3.29 for 99.9% between: surveying formula book, table 7.1 (seen); 4.13 at power 0.80: Baarda (from memory)."""
    assert outlier_limit(0.001) == pytest.approx(3.29, abs=0.005)
    assert outlier_limit(0.05) == pytest.approx(1.959964, abs=5e-7)  # computed elsewhere
    assert noticed_shift(0.001, 0.80) == pytest.approx(4.13, abs=0.005)


@pytest.mark.parametrize(
    ("degrees", "limit"), [(1, 3.841), (2, 5.991), (3, 7.815), (4, 9.488), (5, 11.070), (10, 18.307), (30, 43.773)]
)
def test_chi_square_points(degrees, limit):
    """95% points, NIST/SEMATECH e-Handbook, table 1.3.6.7.4 (from memory)."""
    assert chi_square_limit(0.05, degrees) == pytest.approx(limit, abs=0.0005)
    assert chi_square_tail(limit, degrees) == pytest.approx(0.05, abs=1e-4)

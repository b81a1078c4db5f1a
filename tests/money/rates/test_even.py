"""Even draws and normal quantiles made here are those of the statistics library."""

from statistics import NormalDist

import numpy as np
import pytest
from scipy.special import ndtri
from scipy.stats import nbinom, qmc

from rodbook.money import even_draws
from rodbook.money.deciding.simulation import _remakes
from rodbook.money.rates.even import MOST, normal_quantiles


@pytest.mark.parametrize(("dimensions", "power", "seed"), [(1, 0, 0), (1, 5, 3), (35, 13, 0), (MOST, 8, 11)])
def test_the_draws_are_the_published_sequence_scrambled_as_the_library_does(dimensions, power, seed):
    library = qmc.Sobol(dimensions, scramble=True, rng=np.random.default_rng(seed)).random_base2(power)
    ours = even_draws(dimensions, 2**power, seed)
    assert (ours == np.clip(library, np.finfo(float).tiny, None)).all()


def test_beyond_the_table_the_library_is_asked():
    library = qmc.Sobol(MOST + 1, scramble=True, rng=np.random.default_rng(5)).random_base2(4)
    assert (even_draws(MOST + 1, 16, 5) == library).all()


def test_each_stretch_of_the_normal_quantiles():
    shares = np.array(
        [1e-300, 1e-20, 1e-11, 1e-5, 0.02, 0.0749, 0.0751, 0.3, 0.5, 0.7, 0.9249, 0.9251, 0.99, 1 - 1e-12]
    )
    ours = normal_quantiles(shares)
    assert ours == pytest.approx(ndtri(shares), rel=2e-14, abs=1e-15)
    assert ours == pytest.approx([NormalDist().inv_cdf(share) for share in shares], rel=2e-14, abs=1e-15)


@pytest.mark.parametrize("parts", [1, 7, 96, 2500])
@pytest.mark.parametrize("share", [0.001, 0.02, 0.3, 0.75])
def test_rejects_are_those_of_the_negative_binomial(parts, share):
    points = even_draws(1, 1024, parts)[:, 0]
    assert (_remakes(points, parts, share) == nbinom.ppf(points, parts, 1 - share)).all()


def test_nothing_rejected_is_nothing_made_again():
    assert (_remakes(np.array([0.01, 0.5, 0.999999]), 5, 0.0) == 0).all()

"""Draws that fill the room evenly, and what a normal quantity is at them; made here, as loading a library for it takes longer.

References
----------
I. M. Sobol', "On the distribution of points in a cube and the approximate evaluation of integrals", USSR Computational
Mathematics and Mathematical Physics 7 (1967). S. Joe, F. Y. Kuo, "Constructing Sobol sequences with better two-dimensional
projections", SIAM Journal on Scientific Computing 30 (2008): the directions below are the first of their published table.
J. Matoušek, "On the L2-discrepancy for anchored boxes", Journal of Complexity 14 (1998): the scrambling. M. J. Wichura,
"Algorithm AS 241: the percentage points of the normal distribution", Applied Statistics 37 (1988).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from rodbook.errors import InputError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]

__all__ = ["even_draws", "normal_quantiles"]

BITS = 30
"""Of each coordinate: 2^30 points before the sequence comes round."""

DIRECTIONS = """
3:1 7:1:3 11:1:3:1 13:1:1:1 19:1:1:3:3 25:1:3:5:13 37:1:1:5:5:17 41:1:1:5:5:5 47:1:1:7:11:19 55:1:1:5:1:1
59:1:1:1:3:11 61:1:3:5:5:31 67:1:3:3:9:7:49 91:1:1:1:15:21:21 97:1:3:1:13:27:49 103:1:1:1:15:7:5 109:1:3:1:15:13:25
115:1:1:5:5:19:61 131:1:3:7:11:23:15:103 137:1:3:7:13:13:15:69 143:1:1:3:13:7:35:63 145:1:3:5:9:1:25:53
157:1:3:1:13:9:35:107 167:1:3:1:5:27:61:31 171:1:1:5:11:19:41:61 185:1:3:5:3:3:13:69 191:1:1:7:13:1:19:1
193:1:3:7:5:13:19:59 203:1:1:3:9:25:29:41 211:1:3:5:13:23:1:55 213:1:3:7:3:13:59:17 229:1:3:1:3:5:53:69
239:1:1:5:5:23:33:13 241:1:1:7:7:1:61:123 247:1:1:7:9:13:61:49 253:1:3:3:5:3:55:33 285:1:3:1:15:31:13:49:245
299:1:3:5:15:31:59:63:97 301:1:3:1:11:11:11:77:249 333:1:3:1:11:27:43:71:9 351:1:1:7:15:21:11:81:45
355:1:3:7:3:25:31:65:79 357:1:3:1:1:19:11:3:205 361:1:1:5:9:19:21:29:157 369:1:3:7:11:1:33:89:185
391:1:3:3:3:15:9:79:71 397:1:3:7:11:15:39:119:27 425:1:1:3:1:11:31:97:225 451:1:1:1:3:23:43:57:177
463:1:3:7:7:17:17:37:71 487:1:3:1:5:27:63:123:213 501:1:1:3:5:11:43:53:133 529:1:3:5:5:29:17:47:173:479
539:1:3:3:11:3:1:109:9:69 545:1:1:1:5:17:39:23:5:343 557:1:3:1:5:25:15:31:103:499 563:1:1:1:11:11:17:63:105:183
601:1:1:5:11:9:29:97:231:363 607:1:1:5:15:19:45:41:7:383 617:1:3:7:7:31:19:83:137:221 623:1:1:1:3:23:15:111:223:83
631:1:1:5:13:31:15:55:25:161 637:1:1:3:13:25:47:39:87:257 647:1:1:1:11:21:53:125:249:293 661:1:1:7:11:11:7:57:79:323
675:1:1:5:5:17:13:81:3:131 677:1:1:7:13:23:7:65:251:475 687:1:3:5:1:9:43:3:149:11 695:1:1:3:13:31:13:13:255:487
701:1:3:3:1:5:63:89:91:127 719:1:1:3:3:1:19:123:127:237 721:1:1:5:7:23:31:37:243:289 731:1:1:5:11:17:53:117:183:491
757:1:1:1:5:1:13:13:209:345 761:1:1:3:15:1:57:115:7:33 787:1:3:1:11:7:43:81:207:175 789:1:3:1:1:15:27:63:255:49
799:1:3:5:3:27:61:105:171:305 803:1:1:5:3:1:3:57:249:149 817:1:1:3:5:5:57:15:13:159 827:1:1:1:11:7:11:105:141:225
847:1:3:3:5:27:59:121:101:271 859:1:3:5:9:11:49:51:59:115 865:1:1:7:1:23:45:125:71:419 875:1:1:3:5:23:5:105:109:75
877:1:1:7:15:7:11:67:121:453 883:1:3:7:3:9:13:31:27:449 895:1:3:1:15:19:39:39:89:15 901:1:1:1:1:1:33:73:145:379
911:1:3:1:15:15:43:29:13:483 949:1:1:7:3:19:27:85:131:431 953:1:3:3:3:5:35:23:195:349 967:1:3:3:7:9:27:39:59:297
971:1:1:3:9:11:17:13:241:157 973:1:3:7:15:25:57:33:189:213 981:1:1:7:1:9:55:73:83:217 985:1:3:3:13:19:27:23:113:249
995:1:3:5:3:23:43:3:253:479 1001:1:1:5:5:11:5:45:117:217 1019:1:3:3:7:29:37:33:123:147
1033:1:3:1:15:5:5:37:227:223:459 1051:1:1:7:5:5:39:63:255:135:487 1063:1:3:1:7:9:7:87:249:217:599
1069:1:1:3:13:9:47:7:225:363:247 1125:1:3:7:13:19:13:9:67:9:737 1135:1:3:5:5:19:59:7:41:319:677
1153:1:1:5:3:31:63:15:43:207:789 1163:1:1:7:9:13:39:3:47:497:169 1221:1:3:1:7:21:17:97:19:415:905
1239:1:3:7:1:3:31:71:111:165:127 1255:1:1:5:11:1:61:83:119:203:847 1267:1:3:3:13:9:61:19:97:47:35
1279:1:1:7:7:15:29:63:95:417:469 1293:1:3:1:9:25:9:71:57:213:385 1305:1:3:5:13:31:47:101:57:39:341
1315:1:1:3:3:31:57:125:173:365:551 1329:1:3:7:1:13:57:67:157:451:707 1341:1:1:1:7:21:13:105:89:429:965
1347:1:1:5:9:17:51:45:119:157:141 1367:1:3:7:7:13:45:91:9:129:741 1387:1:3:7:1:23:57:67:141:151:571
1413:1:1:3:11:17:47:93:107:375:157 1423:1:3:3:5:11:21:43:51:169:915 1431:1:1:5:3:15:55:101:67:455:625
1441:1:3:5:9:1:23:29:47:345:595 1479:1:3:7:7:5:49:29:155:323:589 1509:1:3:3:7:5:41:127:61:261:717
"""
"""For each dimension after the first: its primitive polynomial modulo 2 as a number, then its first directions."""

MOST = 1 + len(DIRECTIONS.split())
"""Dimensions that the table reaches to; beyond it the statistics library is asked, which has all of the published ones."""


def even_draws(dimensions: int, draws: int, seed: int) -> Floats:
    """Points that fill the unit cube evenly: a scrambled Sobol sequence, the same for the same seed.

    Parameters
    ----------
    dimensions : int
        One for each thing that varies, >= 1.
    draws : int
        At least so many; rounded up to a power of two, which the sequence wants for its evenness.
    seed : int

    Returns
    -------
    array of float
        Draws by dimensions, each above 0 and below 1. [1]

    Raises
    ------
    InputError
        If there are no dimensions or no draws.

    Examples
    --------
    >>> even_draws(2, 1000, 7).shape
    (1024, 2)
    """
    import numpy as np  # loaded where they are needed: a plan without spreads starts quicker

    if dimensions < 1 or draws < 1:
        raise InputError.at("draws", "money.draws_too_few", draws=draws, dimensions=dimensions)
    power = max(0, math.ceil(math.log2(draws)))
    points = _scrambled(dimensions, power, seed) if dimensions <= MOST else _from_the_library(dimensions, power, seed)
    result: Floats = np.clip(points, float(np.finfo(float).tiny), 1 - np.finfo(float).epsneg)
    return result


def _from_the_library(dimensions: int, power: int, seed: int) -> Floats:
    import numpy as np
    from scipy.stats import qmc

    result: Floats = qmc.Sobol(dimensions, scramble=True, rng=np.random.default_rng(seed)).random_base2(power)
    return result


def _scrambled(dimensions: int, power: int, seed: int) -> Floats:
    """2^power points: each is the one before with one direction added, bit by bit without carrying."""
    import numpy as np

    drawn = np.random.default_rng(seed).spawn(1)[0]
    powers = 2 ** np.arange(BITS, dtype=np.uint32)
    first = drawn.integers(2, size=(dimensions, BITS), dtype=np.uint32) @ powers
    mixing = np.tril(drawn.integers(2, size=(dimensions, BITS, BITS), dtype=np.uint32))
    mixing[:, np.arange(BITS), np.arange(BITS)] = 1
    bits = np.array([_directions(d) for d in range(dimensions)], dtype=np.uint32)[:, :, None] // powers[::-1] % 2
    mixed = np.einsum("dpk,djk->djp", mixing, bits) % 2
    directions = (mixed * powers[::-1]).sum(axis=2, dtype=np.uint32)
    numbers = np.arange(1, 2**power)
    lowest_bit = np.log2(numbers & -numbers).astype(int)
    result: Floats = np.bitwise_xor.accumulate(np.concatenate((first[None], directions.T[lowest_bit]))) / 2**BITS
    return result


def _directions(dimension: int) -> list[int]:
    """A dimension's directions, by the recurrence of its polynomial."""
    if dimension == 0:
        result = [1] * BITS
    else:
        polynomial, *result = (int(word) for word in DIRECTIONS.split()[dimension - 1].split(":"))
        degree = len(result)
        for _ in range(BITS - degree):
            new = result[-degree]
            for back in range(1, degree + 1):
                if polynomial >> (degree - back) & 1:
                    new ^= result[-back] << back
            result.append(new)
    return [value << (BITS - n) for n, value in enumerate(result, 1)]


MIDDLE = (
    (
        3.3871328727963666080e0,
        1.3314166789178437745e2,
        1.9715909503065514427e3,
        1.3731693765509461125e4,
        4.5921953931549871457e4,
        6.7265770927008700853e4,
        3.3430575583588128105e4,
        2.5090809287301226727e3,
    ),
    (
        1.0,
        4.2313330701600911252e1,
        6.8718700749205790830e2,
        5.3941960214247511077e3,
        2.1213794301586595867e4,
        3.9307895800092710610e4,
        2.8729085735721942674e4,
        5.2264952788528545610e3,
    ),
)
NEAR = (
    (
        1.42343711074968357734e0,
        4.63033784615654529590e0,
        5.76949722146069140550e0,
        3.64784832476320460504e0,
        1.27045825245236838258e0,
        2.41780725177450611770e-1,
        2.27238449892691845833e-2,
        7.74545014278341407640e-4,
    ),
    (
        1.0,
        2.05319162663775882187e0,
        1.67638483018380384940e0,
        6.89767334985100004550e-1,
        1.48103976427480074590e-1,
        1.51986665636164571966e-2,
        5.47593808499534494600e-4,
        1.05075007164441684324e-9,
    ),
)
FAR = (
    (
        6.65790464350110377720e0,
        5.46378491116411436990e0,
        1.78482653991729133580e0,
        2.96560571828504891230e-1,
        2.65321895265761230930e-2,
        1.24266094738807843860e-3,
        2.71155556874348757815e-5,
        2.01033439929228813265e-7,
    ),
    (
        1.0,
        5.99832206555887937690e-1,
        1.36929880922735805310e-1,
        1.48753612908506148525e-2,
        7.86869131145613259100e-4,
        1.84631831751005468180e-5,
        1.42151175831644588870e-7,
        2.04426310338993978564e-15,
    ),
)
"""Numerator and denominator of each stretch, lowest power first; from the published algorithm."""


def normal_quantiles(shares: Floats) -> Floats:
    """Standard normal quantiles of many shares at once.

    Parameters
    ----------
    shares : array of float
        Each above 0 and below 1. [1]

    Returns
    -------
    array of float
        To about 16 digits. [1]

    Examples
    --------
    >>> import numpy as np
    >>> normal_quantiles(np.array([0.1, 0.5, 0.975])).round(4)
    array([-1.2816,  0.    ,  1.96  ])
    """
    import numpy as np
    from numpy.polynomial.polynomial import polyval

    off = shares - 0.5
    tail = np.sqrt(-np.log(np.minimum(shares, 1 - shares)))
    square = 0.180625 - off * off

    def ratio(stretch: tuple[tuple[float, ...], tuple[float, ...]], at: Floats) -> Floats:
        result: Floats = polyval(at, stretch[0]) / polyval(at, stretch[1])
        return result

    outer = np.where(tail <= 5, ratio(NEAR, tail - 1.6), ratio(FAR, tail - 5.0))
    result: Floats = np.where(np.abs(off) <= 0.425, off * ratio(MIDDLE, square), np.copysign(outer, off))
    return result

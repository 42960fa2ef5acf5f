"""How strongly ethanol and sugar hold water back from freezing: the measured curves, as activities.

Lives here: the handbook freezing points of ethanol and of sucrose in water, vapour pressures of ice and
supercooled water, and the smooth monotone curves through them. ``pull`` is -ln(water activity).
Must never: know about drinks, volumes or freezers (that is freezing.py).
"""

from bisect import bisect_right
from math import log, tanh

# Ethanol in water: mass %, freezing point depression in °C. CRC Handbook of Chemistry and Physics,
# 102nd ed. (2021), "Concentrative Properties of Aqueous Solutions", read in an open transcription.
# The table ends at 68 % of mass (75.5 % ABV).
ETHANOL_DEPRESSION_C = (
    (0.5, 0.20), (1, 0.40), (2, 0.81), (3, 1.23), (4, 1.65), (5, 2.09), (6, 2.54), (7, 2.99), (8, 3.47),
    (9, 3.96), (10, 4.47), (11, 5.00), (12, 5.56), (13, 6.13), (14, 6.73), (15, 7.36), (16, 8.01),
    (17, 8.69), (18, 9.40), (19, 10.14), (20, 10.92), (22, 12.60), (24, 14.47), (26, 16.41), (28, 18.43),
    (30, 20.47), (32, 22.44), (34, 24.27), (36, 25.98), (38, 27.62), (40, 29.26), (42, 30.98), (44, 32.68),
    (46, 34.36), (48, 36.04), (50, 37.67), (52, 39.20), (54, 40.65), (56, 42.06), (58, 43.49), (60, 44.93),
    (62, 46.28), (64, 47.52), (66, 48.64), (68, 49.52),
)  # fmt: skip
# Sucrose in water, same table. Rows below 5 % are left out: two decimals are too few to draw a curve by.
SUCROSE_DEPRESSION_C = (
    (5, 0.29), (10, 0.63), (15, 1.01), (20, 1.47), (24, 1.89), (28, 2.37), (32, 2.94), (36, 3.63),
    (40, 4.45), (42, 4.93),
)  # fmt: skip
# Above 42 % sucrose: Norrish (1966), ln a_w = ln x_w - K x_s², with K = 6.47 from memory, joined to the
# last measured row. It is within 0.2 °C of the table at 42 %.
NORRISH_K = 6.47
NORRISH_PERCENT = (50, 60, 70, 80, 84)
SUCROSE_G_PER_MOL, WATER_G_PER_MOL = 342.30, 18.015  # IUPAC atomic weights
COLDEST_C = -ETHANOL_DEPRESSION_C[-1][1]  # where the ethanol table ends, -49.52 °C


_CLOSE = 1e-10  # of a piece's width: an inverse this near moves a freezing point by less than 1e-9 °C


class Curve:
    """A smooth rising curve through given points that never overshoots them (monotone cubic).

    Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238, with the weighted harmonic mean of the
    neighbouring slopes (Fritsch and Butland 1984). Level beyond both ends.
    """

    __slots__ = ("_pieces", "_xs", "_ys")

    def __init__(self, points: list[tuple[float, float]]) -> None:
        """Take at least three points, both coordinates rising."""
        xs, ys = [x for x, _ in points], [y for _, y in points]
        last = len(points) - 1
        h = [xs[i + 1] - xs[i] for i in range(last)]
        d = [(ys[i + 1] - ys[i]) / h[i] for i in range(last)]
        slopes = [0.0] * (last + 1)
        for i in range(1, last):
            near, far = 2 * h[i] + h[i - 1], h[i] + 2 * h[i - 1]
            slopes[i] = (near + far) / (near / d[i - 1] + far / d[i])
        slopes[0] = min(3 * d[0], max(0.0, ((2 * h[0] + h[1]) * d[0] - h[0] * d[1]) / (h[0] + h[1])))
        end = ((2 * h[-1] + h[-2]) * d[-1] - h[-1] * d[-2]) / (h[-1] + h[-2])
        slopes[-1] = min(3 * d[-1], max(0.0, end))
        self._xs, self._ys = xs, ys
        self._pieces = [
            (
                xs[i],
                ys[i],
                slopes[i],
                (3 * d[i] - 2 * slopes[i] - slopes[i + 1]) / h[i],
                (slopes[i] + slopes[i + 1] - 2 * d[i]) / h[i] ** 2,
            )
            for i in range(last)
        ]

    def at(self, x: float) -> float:
        """The curve's height at ``x``."""
        if x <= self._xs[0]:
            return self._ys[0]
        if x >= self._xs[-1]:
            return self._ys[-1]
        x0, y0, slope, bend, twist = self._pieces[bisect_right(self._xs, x) - 1]
        t = x - x0
        return y0 + t * (slope + t * (bend + t * twist))

    def where(self, y: float) -> float:
        """The ``x`` at which the curve has the height ``y``: the exact inverse of ``at``."""
        if y <= self._ys[0]:
            return self._xs[0]
        if y >= self._ys[-1]:
            return self._xs[-1]
        i = bisect_right(self._ys, y) - 1
        x0, y0, slope, bend, twist = self._pieces[i]
        width = self._xs[i + 1] - x0
        t = width * (y - y0) / (self._ys[i + 1] - y0)
        for _ in range(20):
            step = (y0 + t * (slope + t * (bend + t * twist)) - y) / (slope + t * (2 * bend + t * 3 * twist))
            t = min(width, max(0.0, t - step))
            if abs(step) <= _CLOSE * width:
                break
        return x0 + t


def _pull_of_ice(temperature_c: float) -> float:
    """-ln(activity) of water in equilibrium with ice: ln(p liquid / p ice) at ``temperature_c``.

    Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, equations 7 (ice) and 10 (liquid water).
    """
    k = temperature_c + 273.15
    ice = 9.550426 - 5723.265 / k + 3.53068 * log(k) - 0.00728332 * k
    glassy = tanh(0.0415 * (k - 218.8)) * (53.878 - 1331.22 / k - 9.44523 * log(k) + 0.014025 * k)
    return 54.842763 - 6763.22 / k - 4.210 * log(k) + 0.000367 * k + glassy - ice


def _norrish_pull(percent: float) -> float:
    sugar = percent / SUCROSE_G_PER_MOL
    share = sugar / (sugar + (100.0 - percent) / WATER_G_PER_MOL)
    return -log(1.0 - share) + NORRISH_K * share * share


_MELTING = _pull_of_ice(0.0)  # 5e-5 rather than 0: ice and water meet at 0.01 °C without air
PULL_OF_COLD = Curve([(c, _pull_of_ice(-c) - _MELTING) for c in (*range(50), -COLDEST_C)])  # by °C below 0
STRONGEST_PULL = PULL_OF_COLD.at(-COLDEST_C)
_LAST_PERCENT, _LAST_DEPRESSION = SUCROSE_DEPRESSION_C[-1]
_JOIN = PULL_OF_COLD.at(_LAST_DEPRESSION) - _norrish_pull(_LAST_PERCENT)
PULL_OF_ETHANOL = Curve(  # by mass fraction of the ethanol and water
    [(0.0, 0.0), *((percent / 100.0, PULL_OF_COLD.at(c)) for percent, c in ETHANOL_DEPRESSION_C)]
)
PULL_OF_SUGAR = Curve(  # by mass fraction of the sugar and water
    [
        (0.0, 0.0),
        *((percent / 100.0, PULL_OF_COLD.at(c)) for percent, c in SUCROSE_DEPRESSION_C),
        *((percent / 100.0, _norrish_pull(percent) + _JOIN) for percent in NORRISH_PERCENT),
    ]
)

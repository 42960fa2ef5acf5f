"""All rounding of the bot: amounts as a bar measures them, columns that add up, percents, money, temperatures.

Every figure anyone reads is made here, from unrounded floats, and only here; nothing here knows a sentence.
Columns are counted in whole hundredths, so what is shown adds up exactly to the sum shown.
"""

from collections.abc import Sequence
from math import floor

US_FL_OZ_ML = 29.5735295625  # 231 in3 / 128: exact by definition (NIST Handbook 44, app. C)
US_GALLON_ML = 128 * US_FL_OZ_ML
_NOISE = 1e-9  # float noise: 2.675 is kept a hair below its half
_QUARTERS = {25: "¼", 50: "½", 75: "¾"}
WATER_SLACK = 0.005  # share of the water that may take up what rounding leaves over
WATER_SLACK_OF_TWINS = 0.015  # the same beside equal parts, which then stay equal


def whole(x: float) -> int:
    """The nearest whole number, halves away from zero, float noise forgiven."""
    return floor(x + 0.5 + _NOISE) if x >= 0.0 else -floor(-x + 0.5 + _NOISE)


def _hundredths(h: int) -> str:
    """1550 -> "15.5", 1500 -> "15", 5 -> "0.05"."""
    sign = "-" if h < 0 else ""
    units, rest = divmod(abs(h), 100)
    if rest == 0:
        return f"{sign}{units}"
    return f"{sign}{units}.{rest // 10}" if rest % 10 == 0 else f"{sign}{units}.{rest:02d}"


def _quartered(h: int) -> str:
    """Hundredths of an ounce with a bar's fractions: 1575 -> "15¾", 50 -> "½", 1540 -> "15.4"."""
    units, rest = divmod(h, 100)
    if h >= 0 and rest in _QUARTERS:
        return f"{units}{_QUARTERS[rest]}" if units else _QUARTERS[rest]
    return _hundredths(h)


def _ml_step(ml: float) -> int:
    """Step in hundredths of a mL: whole above 10 (exact halves of small jiggers kept), 0.1 below, 0.01 below 1."""
    if ml >= 100.0:
        return 100
    if ml >= 9.95:
        return 50 if abs(ml % 1.0 - 0.5) < 1e-6 else 100
    return 10 if ml >= 0.995 else 1


def _ml_shown(ml: float) -> int:
    step = _ml_step(abs(ml))
    return whole(ml * 100.0 / step) * step


def _oz_shown(oz: float, exact: bool) -> int:
    """Hundredths of an ounce: to the quarter within 1 %, else one decimal within 2 %, else two decimals."""
    quarter = whole(oz * 4.0) * 25
    if exact:
        hundredth = whole(oz * 100.0)
        return quarter if abs(quarter - oz * 100.0) < 0.01 else hundredth
    if abs(quarter - oz * 100.0) <= oz + _NOISE:
        return quarter
    tenth = whole(oz * 10.0) * 10
    return tenth if abs(tenth - oz * 100.0) <= 2.0 * oz + _NOISE else whole(oz * 100.0)


def ml_digits(volume_ml: float) -> str:
    """A volume as a jigger or jug shows it, without its unit."""
    return _hundredths(_ml_shown(volume_ml))


def ml(volume_ml: float) -> str:
    """A volume as a jigger or jug shows it: "480 mL", "7.4 mL"."""
    return ml_digits(volume_ml) + " mL"


def oz(volume_ml: float, ounce_ml: float = US_FL_OZ_ML) -> str:
    """A volume in ounces: "16¼ oz", "5.4 oz", "0.03 oz"."""
    return _quartered(_oz_shown(volume_ml / ounce_ml, False)) + " oz"


def ounces_typed(ounces: float) -> str:
    """Ounces someone typed, said back: "1½", "0.33"."""
    return _quartered(_oz_shown(ounces, True))


def size(volume_ml: float) -> str:
    """A vessel: "700 mL", "1 L", "1.75 L"; litres only where they are exact to 10 mL."""
    even = whole(volume_ml / 10.0)
    if volume_ml >= 1000.0 and abs(volume_ml / 10.0 - even) < 1e-6:
        return _hundredths(even) + " L"
    return ml(volume_ml)


def large(volume_ml: float) -> str:
    """A volume from 10 L up in litres and US gallons: "20 L, 5.28 US gal"."""
    return f"{figure(volume_ml / 1000.0)} L, {figure(volume_ml / US_GALLON_ML)} US gal"


def ml_column(mls: Sequence[float], water: int | None = None) -> tuple[list[str], str]:
    """Parts and their sum in mL, rounded so that the parts shown add up to the sum shown.

    `water` is the index of the water. What rounding leaves over goes to it when that is under 0.5 % of it (1.5 %
    beside equal parts, to keep them equal), else a step each to the parts that rounding moved most.
    """
    steps = [_ml_step(v) for v in mls]
    if max(mls, default=0.0) >= 10.0:  # beside real amounts a dash is shown to the tenth, so that the sum reads well
        steps = [10 if s == 1 and v >= 0.095 else s for v, s in zip(mls, steps, strict=True)]
    shown = [whole(v * 100.0 / s) * s for v, s in zip(mls, steps, strict=True)]
    coarse = [i for i, s in enumerate(steps) if s == 100]
    if coarse:
        fine = sum(h for h, s in zip(shown, steps, strict=True) if s != 100)
        slack = whole(sum(mls) - fine / 100.0) - sum(shown[i] for i in coarse) // 100
        if slack:
            _spread(slack, mls, shown, coarse, water)
    return [_hundredths(h) for h in shown], _hundredths(sum(shown))


def _spread(slack: int, mls: Sequence[float], shown: list[int], coarse: list[int], water: int | None) -> None:
    """Put `slack` mL onto the water, or 1 mL each onto the parts furthest off. Changes `shown`."""
    twins = len({round(mls[i], 6) for i in coarse if i != water}) < sum(i != water for i in coarse)
    share = WATER_SLACK_OF_TWINS if twins else WATER_SLACK
    if water is not None and water in coarse and abs(slack) < share * mls[water]:
        shown[water] += 100 * slack
        return
    way = 1 if slack > 0 else -1
    for i in sorted(coarse, key=lambda i: way * (shown[i] - mls[i] * 100.0))[: abs(slack)]:
        shown[i] += 100 * way


def oz_column(ozs: Sequence[float], exact: Sequence[bool]) -> tuple[list[str], str]:
    """Parts and their sum in ounces; `exact` parts were typed in ounces and are not rounded to the quarter.

    The sum is that of the parts shown while it is within 1 % of the truth, else rounded for itself.
    """
    shown = [_oz_shown(v, e) for v, e in zip(ozs, exact, strict=True)]
    total, truth = sum(shown), sum(ozs)
    if abs(total - truth * 100.0) > truth:
        total = _oz_shown(truth, False)
    return [_quartered(h) for h in shown], _quartered(total)


def percent(fraction: float) -> str:
    """A share or strength with one decimal at most: "23.4%", "25%"."""
    return _hundredths(whole(fraction * 1000.0) * 10) + "%"


def percent_whole(fraction: float) -> str:
    """A share in whole percent: "34%"."""
    return f"{whole(fraction * 100.0)}%"


def percent_down(fraction: float) -> str:
    """A share that must not be exceeded, rounded down: "12%"."""
    return f"{floor(fraction * 100.0 + 1e-6)}%"


def up_to_half_point(fraction: float) -> float:
    """A strength that must be reached, up to the next half point: 0.332 -> 0.335."""
    return -floor(-fraction * 200.0 + 1e-6) / 200.0


def percent_up(fraction: float) -> str:
    """The same in percent: "33.5%"."""
    return percent(up_to_half_point(fraction))


def proof(abv: float) -> str:
    """US proof of a strength, whole: "47"."""
    return str(whole(abv * 200.0))


def degrees(celsius: float) -> str:
    """A temperature to the half degree: "-18 °C", "-11.5 °C"."""
    return _hundredths(whole(celsius * 2.0) * 50) + " °C"


def degrees_f(fahrenheit_degrees: float) -> str:
    """A temperature in whole degrees Fahrenheit: "0 °F"."""
    return f"{whole(fahrenheit_degrees)} °F"


def fahrenheit(celsius: float) -> str:
    """A temperature in °C as whole degrees Fahrenheit: -18 -> "0 °F"."""
    return degrees_f(celsius * 1.8 + 32.0)


def money(amount: float, currency: str) -> str:
    """A sum with two decimals; a sign stands before it, a code or word after it, nothing is invented."""
    cents = whole(amount * 100.0)
    digits = f"{abs(cents) // 100}.{abs(cents) % 100:02d}"
    minus = "-" if cents < 0 else ""
    if not currency:
        return minus + digits
    if any(c.isalpha() for c in currency) and not currency.endswith(("$", "£", "€", "¥")):
        return f"{minus}{digits} {currency}"
    return minus + currency + digits


def count(n: float) -> str:
    """Pieces, serves, parts: whole, or with up to two decimals."""
    return _hundredths(whole(n * 100.0))


def full(n: float) -> str:
    """Pieces of which only full ones count: 7.9 serves are "7"."""
    return count(float(int(n + 1e-6)))


def grams(g: float) -> str:
    """A weight: "443 g", "4.6 g"; kilograms from 10 kg up."""
    return figure(g / 1000.0) + " kg" if g >= 10000.0 else ml_digits(g) + " g"


def figure(x: float) -> str:
    """A plain figure to three digits or better: whole from 100, one decimal from 10, two from 1, three below."""
    size_of = abs(x)
    places = 0 if size_of >= 100.0 else 1 if size_of >= 10.0 else 2 if size_of >= 1.0 else 3
    scaled = whole(x * 10**places)
    text = f"{abs(scaled) / 10**places:.{places}f}"
    text = text.rstrip("0").rstrip(".") if places else text
    return "-" + text if scaled < 0 else text

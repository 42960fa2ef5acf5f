"""What a freezer does to a drink, in words: the verdict, the ways out, room for the ice.

Must never: round (bot.reply.numbers does), know layout or markup.
"""

from bot.reply import numbers

VERDICTS = {"liquid": "stays liquid", "slush": "turns to slush", "hard": "freezes hard"}


def freezer_at(celsius: float) -> str:
    """"Freezer -18 °C: "."""
    return f"Freezer {numbers.degrees(celsius)}: "


def both_temperatures(celsius: float) -> str:
    """"-18 °C (0 °F)"."""
    return f"{numbers.degrees(celsius)} ({numbers.fahrenheit(celsius)})"


def verdict(state: str, near_edge: bool) -> str:
    """"turns to slush", "borderline, stays liquid"."""
    return ("borderline, " if near_edge else "") + VERDICTS[state]


def way_out(most_water: float | None, water: float | None, least_abv: float | None) -> str:
    """What would make it pour: less water if that is enough, else a strength; "" when neither is known."""
    if most_water is not None and (water is None or most_water < water):
        if most_water < 0.05:
            return "Leave the water out and it pours"
        return f"Keep water to {numbers.percent_down(most_water)} and it pours"
    return f"It pours from {numbers.percent_up(least_abv)} ABV up" if least_abv else ""


def about_ice(share: float) -> str:
    """"about 34% ice"."""
    return f"about {numbers.percent_whole(share)} ice"


def freezes_from(celsius: float) -> str:
    """"Starts to freeze near -11 °C (12 °F)"."""
    return f"Starts to freeze near {both_temperatures(celsius)}"


def headspace(amount: str, of_a_litre: bool) -> str:
    """"Leave 31 mL (1 oz) of headspace", "... a litre" where no volume was said."""
    return f"Leave {amount} of headspace{' a litre' if of_a_litre else ''}"


def least_strength(abv: float, at_c: float) -> tuple[str, str]:
    """"34% ABV (68 proof)", "just stays liquid at -18 °C (0 °F)"."""
    least = numbers.up_to_half_point(abv)
    figure = f"{numbers.percent(least)} ABV ({numbers.proof(least)} proof)"
    return figure, f"just stays liquid at {both_temperatures(at_c)}"


def most_water(share: float, ml: float | None) -> str:
    """"Up to 22% water and it pours: 154 mL"."""
    amount = "" if ml is None else f": {numbers.ml(ml)}"
    return f"Up to {numbers.percent_down(share)} water and it pours{amount}"

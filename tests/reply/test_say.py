"""Layouts: whole replies as they are read on a phone, and what holds for all of them."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.facts import Answer, Line, Note
from bot.reply.render_text import to_text
from bot.reply.say import say
from bot.reply.table import WIDTH, aligned, amounts
from tests.reply.samples import SAMPLES

REPLIES = {
    "batch": """\
8 serves · 90 mL spec + 25% water
gin           480 mL   16¼ oz
dry vermouth  240 mL   8.1 oz
water         180 mL   6.1 oz
Total         900 mL 30.45 oz
Mixes to 893 mL (30¼ oz)
Pour 112 mL (3¾ oz) each
Fits a 1 L bottle
ABV 26.5% (53 proof)
Freezer -18 °C: turns to slush, about 34% ice
Keep water to 12% and it pours
Assumed: gin 40%; dry vermouth 18%
A full sealed glass bottle can burst in the freezer.""",
    "house batch": """\
Fog Bell · 20 serves · 76 mL spec
gin             1000 mL   33¾ oz
dry vermouth     400 mL   13½ oz
dry sherry       100 mL   3.4 oz
orange bitters    18 mL  0.63 oz
lemon peel        20
Total           1518 mL 51.28 oz
Pour 76 mL (2.6 oz) each
Fits a 1.75 L bottle
ABV 32.5% (65 proof)
Freezer -18 °C: borderline, turns to slush, about 5% ice
Keep water to 18% and it pours
Assumed: gin 40%; dry vermouth 18%; dash 0.92 mL""",
    "ounces": """\
14 serves · 3 oz spec + 25% water
bourbon          28 oz  828 mL
sweet vermouth   14 oz  414 mL
water           10½ oz  311 mL
Total           52½ oz 1553 mL
Mixes to 52 oz (1541 mL)
Pour 3¾ oz (110 mL) each
ABV 30.4% (61 proof)
Freezer -18 °C: stays liquid
Assumed: oz is the US fl oz, 29.6 mL""",
    "strength": """\
ABV 26.3% (53 proof)
gin            60 mL  2 oz
dry vermouth   30 mL  1 oz
water          22 mL  ¾ oz
Total         112 mL 3¾ oz""",
    "cut": """\
Add 383 mL water (13 oz)
To 1 L of 63%
Makes 1366 mL (46¼ oz) at 46% (92 proof)
By weight: 382 g water
Spirit and water shrink: 17 mL less than added up""",
    "strength after water": """\
ABV 41.9% (84 proof)
Add 200 mL water (6¾ oz)
To 1 L of rye, 50%
Makes 1192 mL (40¼ oz)""",
    "convert": "59.1 mL ≈ 2 US fl oz",
    "convert list": """\
5.91 cL ≈ 2 oz
2.22 cL ≈ ¾ oz
1.48 cL ≈ ½ oz
Assumed: oz is the US fl oz, 29.6 mL""",
    "pours and left": "45 full pours + 3.8 mL left",
    "freezer slush": """\
Turns to slush at -18 °C (0 °F), about 34% ice
Keep water to 12% and it pours
Starts to freeze near -11 °C (12 °F)
Leave 31 mL of headspace a litre
ABV 24% (48 proof)
A full sealed glass bottle can burst in the freezer.""",
    "freezer liquid": """\
Stays liquid at -18 °C (0 °F)
Starts to freeze near -23.5 °C (-10 °F)
ABV 40% (80 proof)
Assumed: freezer -18 °C""",
    "least strength": """\
33.5% ABV (67 proof)
just stays liquid at -18 °C (0 °F)""",
    "dilution": """\
Water 756 mL (25½ oz), 18%
4.2 L becomes 4956 mL (167½ oz)""",
    "syrup": """\
sugar  885 g 1048 mL
water  443 g  444 mL
Makes 1000 mL (33¾ oz)
885 g/L sugar, 66.7 Brix
Assumed: parts by weight""",
    "pour cost": """\
Pour cost 20%
Cost a serve 3.00
Price 15.00
Margin 80%""",
    "bottles": """\
Buy 5 × 700 mL gin; 500 mL left over
60 serves
Need 3000 mL""",
    "bottles short": """\
rye: short 116 mL, not enough
Need 2366 mL, have 3 × 750 mL
Buy 1 × 750 mL rye""",
    "bottles enough": """\
vodka: enough, 1000 mL left over
Need 3000 mL, have 4 × 1 L""",
    "label": """\
24.4% vol, 700 mL
Fog Bell
Allowed ±0.3 points: retained Reg. (EU) 1169/2011 Annex XII
Standard drinks in 700 mL
US          9.6
UK units   17.1
Australia  13.5
Allergens: sulphites, egg; check the bottles’ own labels
Keeps 30 days, cold, 4 °C or less
Measure it with a hydrometer or a lab before you print, and follow local law.""",
    "saved": """\
Saved Fog Bell
50 gin, 20 dry vermouth, 5 dry sherry, 1 dash orange bitters
Try: fog bell for 20""",
    "question": """\
Read: 8 serves
8 × 70 mL is 560 mL, not 2000 mL. Which one is right?
Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water""",
}


@pytest.mark.parametrize("name", REPLIES)
def test_a_whole_reply(name: str) -> None:
    assert to_text(say(SAMPLES[name])) == REPLIES[name]


@pytest.mark.parametrize("name", SAMPLES)
def test_every_line_says_something_and_no_line_is_said_twice(name: str) -> None:
    lines = say(SAMPLES[name]).lines
    prose = [line.text for line in lines if not line.table]
    assert all(text == text.strip() and text for text in prose)
    assert all(line.text == line.text.rstrip() and line.text for line in lines)
    assert len(set(prose)) == len(prose)


@pytest.mark.parametrize("name", SAMPLES)
def test_tables_fit_a_phone_and_prose_is_short(name: str) -> None:
    for line in say(SAMPLES[name]).lines:
        assert len(line.text) <= (WIDTH if line.table else 120)


names = st.text(st.characters(categories=["L", "N", "Zs", "P"]), min_size=1, max_size=60)


@given(st.lists(st.tuples(names, st.floats(0.5, 99_999.0)), min_size=1, max_size=8), st.sampled_from(["ml", "oz"]))
def test_a_table_never_grows_wider_than_a_phone(parts: list[tuple[str, float]], first: str) -> None:
    lines = amounts(tuple(Line(name, ml) for name, ml in parts), first, 29.5735295625)
    assert all(len(line.text) <= WIDTH and line.table for line in lines)


def test_a_name_too_long_for_its_line_stands_above_its_amounts() -> None:
    rows = aligned([("blackcurrant liqueur of the house", ("600 mL", "20¼ oz")), ("gin", ("60 mL", "2 oz"))])
    assert [line.text for line in rows] == [
        "blackcurrant liqueur of the house",
        "     600 mL 20¼ oz",
        "gin   60 mL   2 oz",
    ]


def test_absent_facts_are_left_out() -> None:
    assert to_text(say(Answer("batch", lines=(Line("gin", 60.0),)))) == "gin  60 mL 2 oz"


def test_one_drink_is_not_put_in_a_freezer() -> None:
    one = replace(SAMPLES["batch"], serves=1.0)
    assert "Freezer" not in to_text(say(one))
    assert "Pour" not in to_text(say(one))


def test_an_assumption_made_twice_is_said_once() -> None:
    answer = replace(SAMPLES["batch"], assumed=(Note("one_each"), Note("one_each")))
    assert "Assumed: one drink a guest\n" in to_text(say(answer))


def test_the_figure_asked_for_comes_first() -> None:
    assert say(SAMPLES["just the water"]).lines[0].text == "Water: 475 mL (16 oz)"
    assert say(replace(SAMPLES["batch"], focus="serve")).lines[0].text == "One serve: 112 mL (3¾ oz)"


def test_an_export_keeps_its_last_line() -> None:
    rows = [f"spec {n},50 gin 20 dry vermouth" for n in range(300)]
    answer = Answer("listed", understood=(Note("export"),), items=(("", "\n".join(rows)),))
    assert to_text(say(answer)).split("\n")[1:] == rows


def test_a_house_spec_typed_on_several_lines_is_listed_on_one() -> None:
    answer = Answer("listed", items=(("fog bell", "50 ml gin\n20 ml dry vermouth"), ("low tide", "30 sherry")))
    assert to_text(say(answer)) == "fog bell: 50 ml gin, 20 ml dry vermouth\nlow tide: 30 sherry"


def test_a_bottle_from_the_shelf_is_named_once() -> None:
    notes = (Note("shelf", ("gin", 0.43)), Note("shelf", ("gin",)), Note("shelf", ("rye",)))
    text = to_text(say(Answer("batch", assumed=notes)))
    assert text == "Assumed: gin 43% from your shelf; rye from your shelf"

"""Wording: every code has its sentence, no sentence shows the machine's insides or contradicts itself."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest

from bot.core.facts import Answer, FreezerFacts, Note, Problem
from bot.reply import words, words_cautions, words_freezer, words_notes, words_questions
from bot.reply.render_text import to_text
from bot.reply.say import say
from tests.reply.samples import SAMPLES

ROOT = Path(__file__).parents[2]
PROBLEMS = [
    *("empty", "not_ours", "health", "too_long", "no_amounts", "no_spec", "no_strength", "no_volume", "no_serves"),
    *("no_price", "unread", "unclear_number", "conflict_amounts", "conflict_total", "ratio_names", "cannot_raise"),
    *("out_of_range", "too_large", "weight", "two_readings", "no_last", "no_house_spec"),
]
# found as the reader and the calculation write it, one of each shape
FOUND = [
    *("", "17", "gin, dry vermouth", "negroni", "the strength it has now", "3:1: 2 parts, but 3 ingredients"),
    *("2 l total", "total 2 l"),
]
INSIDES = re.compile(r"\b[A-Z_]{4,}\b|[a-z]_[a-z]|\btoken\b|\bNone\b|\bTrue\b|Traceback|[{}\[\]<>]")
# what no reply about a drink that freezes may say: a way out that reads as the opposite verdict
CONTRADICTS = re.compile(
    r"(?:won't|will not|not|n't|never) (?:\w+ ){0,2}(?:freez|slush|solid)|(?:stay|stays|remain|keeps?) (?:\w+ )?liquid"
    r"|liquid at|pourable|\bsafe\b",
    re.IGNORECASE,
)
WORKED_TOTAL = re.compile(r"total[^\n]{0,20}\d+(?:\.\d+)?\s?(?:ml|l\b|oz)", re.IGNORECASE)


def question(code: str, found: str = "", **facts: str) -> str:
    return to_text(say(Answer("question", problem=Problem(code, None, found, "", tuple(facts.items())))))


@pytest.mark.parametrize("code", PROBLEMS)
def test_every_problem_has_a_question_and_a_message_that_would_work(code: str) -> None:
    asked, example = question(code).split("\n")
    assert "?" in asked
    assert example.startswith(words.NEXT)
    assert asked in words_questions.QUESTIONS[code]("", {})


def test_no_question_is_left_over() -> None:
    assert set(words_questions.QUESTIONS) == set(words_questions.EXAMPLES) == set(PROBLEMS)


@pytest.mark.parametrize("code", PROBLEMS)
@pytest.mark.parametrize("found", FOUND)
def test_questions_ask_and_work_nothing_out(code: str, found: str) -> None:
    text = question(code, found)
    assert "?" in text
    assert not WORKED_TOTAL.search(text)
    assert not INSIDES.search(text)
    assert all(len(line) <= 120 for line in text.split("\n"))


@pytest.mark.parametrize(
    ("code", "found", "facts", "asked"),
    [
        ("no_amounts", "gin, dry vermouth", {}, "How much of each: gin, dry vermouth?"),
        ("no_spec", "negroni", {}, "What goes into your negroni? Tell me the recipe for one."),
        ("no_strength", "the strength it has now", {}, "What is the strength it has now?"),
        ("unread", "flurble", {}, "I did not understand “flurble”. Can you put it another way?"),
        ("out_of_range", "450%", {"most": "100 %"}, "“450%” can't be right; at most 100%. What should it be?"),
        ("conflict_total", "12 or 8 serves", {}, "These do not match: 12 or 8 serves. Which one is right?"),
        (
            "conflict_total",
            "8 x 70 ml is 560 ml, not 2000 ml",
            {},
            "8 × 70 mL is 560 mL, not 2000 mL. Which one is right?",
        ),
        ("conflict_total", "mist is already saved", {}, "mist is already saved. What other name shall it have?"),
        (
            "cannot_raise",
            "40 % to 60 %",
            {"from": "40 %", "to": "60 %", "stronger": "96 %", "stronger_ml": "389"},
            "Water can't raise the strength from 40% to 60%; it only lowers it. 389 mL of 96% would. Is there some?",
        ),
        (
            "no_house_spec",
            "fog bel",
            {"known": "fog bell, low tide"},
            "I have nothing saved as “fog bel”, only fog bell, low tide. What goes in it?",
        ),
        ("unclear_number", "10 - 12 guests", {}, "I am not sure how to read “10-12 guests”. Which number do you mean?"),
        (
            "conflict_amounts",
            "2 oz ( 30 ml",
            {},
            "“2 oz (30 ml)” gives two amounts that do not match. Which one is right?",
        ),
        ("two_readings", "a conversion or a batch", {}, "Is that a conversion or a batch?"),
        ("unclear_number", "total 2 L", {}, "I am not sure how to read “2 L”. Which number do you mean?"),
    ],
)
def test_questions_name_what_was_typed(code: str, found: str, facts: dict[str, str], asked: str) -> None:
    assert question(code, found, **facts).split("\n")[0] == asked


def test_the_message_made_for_a_problem_is_offered_unless_it_works_out_a_total() -> None:
    assert words_questions.example(Problem("conflict_total", try_instead="8 serves of 60 gin")) == "8 serves of 60 gin"
    usual = words_questions.EXAMPLES["conflict_total"]
    assert words_questions.example(Problem("conflict_total", try_instead="8 x 60 gin, total 2 L")) == usual


@pytest.mark.parametrize(
    ("code", "found", "example"),
    [
        ("no_strength", "saline", "100 ml of 20% saline"),
        ("no_strength", "the strength", "will 25% freeze at -18?"),
        ("no_strength", "the strength it has now", "cut 700 ml from 50% to 40%"),
        ("no_volume", "syrup", "1 L of 2:1 syrup"),
        ("no_volume", "25 %", "cut 700 ml from 50% to 40%"),
        ("no_volume", "25 % water", "25% water on 2 L"),
        ("out_of_range", "-400 c", "will 25% freeze at -18?"),
        ("out_of_range", "100 % margin", "cost 2.80, price 14, pour cost?"),
        ("out_of_range", "gin at 450 %", "cut 700 ml from 50% to 40%"),
        ("out_of_range", "-5 serves", words_questions.EXAMPLES["out_of_range"]),
    ],
)
def test_the_example_is_near_what_was_asked(code: str, found: str, example: str) -> None:
    assert words_questions.example(Problem(code, found=found)) == example


@pytest.mark.parametrize("found", ["1e+09 serves", "inf ml", "8.88889e+21 serves"])
def test_a_figure_no_person_would_read_is_not_said_back(found: str) -> None:
    asked = question("too_large", found, most="20000").split("\n")[0]
    assert asked == "That is too large for me; at most 20000. How many did you mean?"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("a\u202eb\u200b c\n\td", "“ab c d”"),
        ("WHATS THE ABV", "“whats the abv”"),
        ("x" * 90, "“" + "x" * 39 + "…”"),
    ],
)
def test_what_someone_typed_is_said_back_short_and_harmless(typed: str, said: str) -> None:
    assert words_notes.quoted(typed) == said


@pytest.mark.parametrize("name", SAMPLES)
def test_no_reply_shows_the_machines_insides(name: str) -> None:
    assert not INSIDES.search(to_text(say(SAMPLES[name])))


@pytest.mark.parametrize("kind", ["batch", "freezer"])
@pytest.mark.parametrize("state", ["slush", "hard"])
@pytest.mark.parametrize("near_edge", [False, True])
@pytest.mark.parametrize("most_water", [None, 0.0, 0.124])
@pytest.mark.parametrize("focus", ["", "verdict", "most_water", "headspace", "ice", "point"])
def test_a_drink_that_freezes_is_never_said_to_pour_as_it_is(
    kind: Literal["batch", "freezer"], state: Literal["slush", "hard"], near_edge: bool, most_water: float | None, focus: str
) -> None:
    facts = FreezerFacts(-18.0, -11.0, state, near_edge, 0.34, 31.0, most_water, 0.334)
    notes = tuple(Note(code) for code in ("near_edge", "undercooling"))
    cautions = (Note("headspace", (31.0,)),)
    answer = Answer(kind, freezer=facts, water_share=0.25, abv=0.24, focus=focus, remarks=notes, cautions=cautions)
    text = to_text(say(answer))
    assert words_freezer.VERDICTS[state] in text.lower()
    assert not CONTRADICTS.search(text)


def test_a_drink_that_stays_liquid_says_so_and_nothing_else() -> None:
    text = to_text(say(SAMPLES["freezer liquid"]))
    assert "Stays liquid" in text
    assert "slush" not in text
    assert "burst" not in text


def test_of_several_cautions_the_weightiest_is_said() -> None:
    notes = (Note("standard_drinks"), Note("raw_egg"), Note("flammable"))
    assert words_cautions.weightiest(notes).code == "raw_egg"


@pytest.mark.parametrize("code", words_cautions.CAUTIONS)
def test_cautions_are_one_short_sentence(code: str) -> None:
    sentence = words_cautions.CAUTIONS[code]
    assert sentence.endswith(".")
    assert sentence.count(".") == 1
    assert len(sentence) <= 90


CALLS = {"Note", "assume", "remark", "understand", "caution"}


def codes_noted() -> Iterator[str]:
    """The code of every note made beside the calculation, where the source spells it out."""
    for path in sorted((ROOT / "bot").glob("answer/**/*.py")) + sorted((ROOT / "bot").glob("answer*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            first = node.args[0]
            if name in CALLS and isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield first.value


def test_every_note_that_is_made_has_a_sentence() -> None:
    noted = set(codes_noted())
    assert len(noted) > 30
    assert noted - words_notes.NOTES.keys() - words_cautions.CAUTIONS.keys() == set()


@pytest.mark.parametrize("code", ["fresh_bottles", "one_each", "whole_batch", "bare_ml", "by_weight", "no_water"])
def test_notes_without_arguments_are_clauses(code: str) -> None:
    clause = words.said(Note(code))
    assert clause
    assert not clause.endswith(".")


@pytest.mark.parametrize(
    ("note", "clause"),
    [
        (Note("serve_size", (90.0,)), "90 mL undiluted a serve"),
        (Note("abv", ("gin", 0.4)), "gin 40%"),
        (Note("ounce", ("imperial",)), "oz is the imperial fl oz, 28.4 mL"),
        (Note("vermouth_kind", ("dry vermouth", "gin")), "dry vermouth, as goes with gin"),
        (Note("dash", (0.924,)), "dash 0.92 mL"),
        (Note("freezer", (-17.8,)), "freezer -18 °C"),
        (Note("each_ml", ("lime", 25.0)), "one lime gives 25 mL"),
        (Note("stirred_water", (0.4398,)), "44% water, about what stirring adds"),
        (Note("drink_parts", ("negroni", "gin, sweet vermouth")), "negroni: gin, sweet vermouth"),
        (Note("read_as", ("ginn", "gin")), "“ginn” is gin"),
        (Note("skipped", ("for my mate",)), "passed over “for my mate”"),
        (Note("shelf", ("gin", 0.437)), "gin 43.7% from your shelf"),
        (Note("shelf", ("gin",)), "gin from your shelf"),
        (Note("measure", ("imp_pint", 568.26)), "imp pint 568 mL"),
        (Note("setting_set", ("ounce", "imperial")), "oz is now the imperial fl oz, 28.4 mL"),
        (Note("setting_set", ("ounce", "30ml")), "oz is now 30 mL"),
        (Note("setting_set", ("first", "oz")), "oz first from now on"),
        (Note("setting_set", ("freezer", "-22")), "Freezer is -22 °C (-8 °F)"),
        (Note("setting_set", ("serve", 85.0)), "A serve is 85 mL undiluted"),
        (Note("setting_set", ("dash", "0.8")), "A dash is 0.8 mL"),
        (Note("setting_set", ("currency", "€")), "Prices are in €"),
        (Note("setting_set", ("country", "uk")), "Labels follow the UK"),
        (Note("renamed", ("Fog Bell", "Mist Bell")), "Fog Bell is now called Mist Bell"),
        (Note("some_new_thing", ("two words",)), "two words"),
        (Note("some_new_thing"), "some new thing"),
    ],
)
def test_notes_are_said_with_their_arguments(note: Note, clause: str) -> None:
    assert words.said(note) == clause

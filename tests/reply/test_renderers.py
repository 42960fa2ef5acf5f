"""Renderers: the same lines as plain text, Telegram HTML and Matrix HTML; nothing typed ever becomes markup."""

import re
from html import unescape
from html.parser import HTMLParser

import pytest

from bot.core.facts import Answer, Line, Note, Problem
from bot.reply.render_matrix import to_matrix
from bot.reply.render_telegram import LONGEST, to_html
from bot.reply.render_text import to_text
from bot.reply.say import say
from bot.reply.words import CUT_SHORT
from tests.reply.samples import SAMPLES

TELEGRAM_TAGS = {"b", "i", "code", "pre"}
MATRIX_TAGS = {"strong", "em", "code", "pre", "br"}


class Tags(HTMLParser):
    """Collects tag names and checks that they nest."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: set[str] = set()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert attrs == []
        self.seen.add(tag)
        if tag != "br":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def tags(html: str) -> set[str]:
    parser = Tags()
    parser.feed(html)
    parser.close()
    assert parser.open == []
    return parser.seen


def plain(html: str) -> str:
    """What a reader of the HTML sees."""
    html = html.replace("<br>", "\n").replace("</pre>", "</pre>\n").replace("<pre>", "\n<pre>")
    text = unescape(re.sub(r"<[^>]+>", "", html)).replace("\u00a0", " ")
    return re.sub(r"\n+", "\n", text).strip("\n")


@pytest.mark.parametrize("name", SAMPLES)
def test_telegram_shows_the_same_text_in_its_own_tags(name: str) -> None:
    reply = say(SAMPLES[name])
    html = to_html(reply)
    assert tags(html) <= TELEGRAM_TAGS
    assert plain(html) == to_text(reply)


@pytest.mark.parametrize("name", SAMPLES)
def test_matrix_shows_the_same_text_in_its_own_tags(name: str) -> None:
    reply = say(SAMPLES[name])
    body, html = to_matrix(reply)
    assert body == to_text(reply)
    assert tags(html) <= MATRIX_TAGS
    assert plain(html) == body


def test_a_table_is_one_block_of_fixed_width_without_markup_inside() -> None:
    html = to_html(say(SAMPLES["batch"]))
    (block,) = re.findall(r"<pre>(.*?)</pre>", html, re.DOTALL)
    assert block.split("\n")[0] == "gin           480 mL   16¼ oz"
    assert "<" not in block


@pytest.mark.parametrize("typed", ["<b>gin</b>", "<script>alert('x')</script>", "a & b", "&lt;"])
def test_what_was_typed_is_text_and_never_markup(typed: str) -> None:
    answers = [
        Answer("question", problem=Problem("unread", None, typed, typed)),
        Answer("batch", title=typed, lines=(Line(typed, 60.0), Line("lime", 20.0)), serves=2.0),
        Answer("listed", items=((typed, typed),), actions=(typed,)),
        Answer("saved", understood=(Note("saved", (typed,)),)),
    ]
    for answer in answers:
        reply = say(answer)
        assert tags(to_html(reply)) <= TELEGRAM_TAGS
        assert plain(to_html(reply)) == to_text(reply)
        assert plain(to_matrix(reply)[1]) == to_text(reply)


def test_a_number_is_not_parted_from_its_unit_in_prose() -> None:
    assert "112\u00a0mL (3¾\u00a0oz)" in to_html(say(SAMPLES["batch"]))
    assert "\u00a0" not in to_text(say(SAMPLES["batch"]))


def test_a_message_too_long_for_telegram_is_cut_between_lines_and_says_so() -> None:
    items = tuple((f"spec {n}", "50 gin, 20 dry vermouth & more") for n in range(300))
    html = to_html(say(Answer("listed", items=items)))
    assert len(html) <= LONGEST + len(CUT_SHORT) + 1
    assert html.endswith(CUT_SHORT)
    assert tags(html) <= TELEGRAM_TAGS

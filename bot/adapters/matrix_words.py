"""What a Matrix message means to us, and what one of ours looks like: plain dictionaries in and out.

Reads mentions, replies, threads and edits, and builds the content of an answer. Never here: nio, the network, a number.
"""

import json
import re
from dataclasses import dataclass
from typing import Any

from bot.desk import Said
from bot.post.steps import Step
from bot.reply import words_post
from bot.reply.render_matrix import to_matrix
from bot.reply.spans import Line, Reply, Span

Content = dict[str, Any]
DIGITS = re.compile(r"[\d.,½¼¾]+")


@dataclass(frozen=True, slots=True)
class Heard:
    """A text message. about: the message it replies to. thread: the first message of its thread.

    question: what to reply to; of an edited message, the message as first sent. mentioned: we are named in it.
    """

    text: str
    question: str
    about: str = ""
    thread: str = ""
    edits: bool = False
    mentioned: bool = False


class Names:
    """What people call us: our id, the name in it, and the name we show."""

    def __init__(self, user_id: str, shown: str = "") -> None:
        self._user_id = user_id
        full = user_id.removeprefix("@")
        names = {full, full.partition(":")[0], shown} - {""}
        called = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
        self._called = re.compile(rf"(?<![\w@])@?(?:{called})(?!\w)\s*[:,]?\s*", re.IGNORECASE)

    def heard(self, event_id: str, content: Content) -> Heard | None:
        """What a message with this content says; None when it is not text, or is malformed."""
        relation = _dictionary(content, "m.relates_to")
        edits = relation.get("rel_type") == "m.replace"
        inside = _dictionary(content, "m.new_content") if edits else content
        body = inside.get("body")
        question = _text(relation) if edits else event_id
        if inside.get("msgtype") != "m.text" or not isinstance(body, str) or not question:
            return None
        about = "" if edits or relation.get("is_falling_back") else _text(_dictionary(relation, "m.in_reply_to"))
        quoted, said = _without_quote(body) if about else ("", body)
        named = _dictionary(inside, "m.mentions").get("user_ids")
        mentioned = isinstance(named, list) and self._user_id in named
        mentioned = mentioned or self._user_id in quoted.partition("\n")[0] or self._called.search(said) is not None
        text = self._called.sub(" ", said).strip()
        return Heard(text, question, about, thread_of(content), edits, mentioned)


def thread_of(content: Content) -> str:
    """The first message of the thread in which a message with this content stands; "" outside threads."""
    relation = _dictionary(content, "m.relates_to")
    return _text(relation) if relation.get("rel_type") == "m.thread" else ""


def _dictionary(content: Content, key: str) -> Content:
    found = content.get(key)
    return found if isinstance(found, dict) else {}


def _text(content: Content, key: str = "event_id") -> str:
    found = content.get(key)
    return found if isinstance(found, str) else ""


def _without_quote(body: str) -> tuple[str, str]:
    """The quotation with which older clients open a reply, and what was typed under it."""
    lines = body.split("\n")
    quoted = next((at for at, line in enumerate(lines) if not line.startswith(">")), len(lines))
    return "\n".join(lines[:quoted]), "\n".join(lines[quoted:]).lstrip("\n")


def packed(said: Said, steps: tuple[Step, ...]) -> str:
    """A reply, with its next steps as words to reply with, as the text that is kept until it is sent."""
    last_of_shape = {DIGITS.sub("", step.say): step.say for step in steps}
    lines = said.reply.lines
    if last_of_shape:
        spans = [Span("note", words_post.NEXT)]
        for say in last_of_shape.values():
            spans += [Span("text", " · " if len(spans) > 1 else " "), Span("say", say)]
        lines += (Line(tuple(spans)),)
    body, html = to_matrix(Reply(lines))
    return json.dumps({"body": body, "html": html}, ensure_ascii=False)


def notice(payload: str, *, question: str = "", thread: str = "", replaces: bool = False) -> Content:
    """The content of our message: a notice, since no bot answers those. replaces: say that it is a changed answer."""
    kept = json.loads(payload)
    body, html = kept["body"], kept["html"]
    if replaces:
        body, html = f"{words_post.REPLACES}\n{body}", f"<em>{words_post.REPLACES}</em><br>{html}"
    content: Content = {"msgtype": "m.notice", "body": body, "m.mentions": {}}
    content |= {"format": "org.matrix.custom.html", "formatted_body": html}
    if question:
        relation: Content = {"m.in_reply_to": {"event_id": question}}
        if thread:
            relation |= {"rel_type": "m.thread", "event_id": thread, "is_falling_back": False}
        content["m.relates_to"] = relation
    return content

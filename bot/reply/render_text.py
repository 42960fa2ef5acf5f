"""A Reply as plain text: what the console prints, what the JSON answer carries, Matrix's plain body."""

from bot.reply.spans import Reply


def to_text(reply: Reply) -> str:
    """The reply as plain text, one line a line."""
    return "\n".join([line.text for line in reply.lines])

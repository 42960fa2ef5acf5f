"""What the post room counts for whoever watches the bot. Counting nothing is the default.

bot/monitor.py counts for Prometheus. Never here: a library.
"""


class Counts:
    """Counts nothing."""

    def received(self, what: str, seconds: float) -> None:
        """Something that arrived was dealt with (answered, asked, repeated, late, line, sorry) in so many seconds."""

    def letter(self, how: str, seconds: float) -> None:
        """A letter was sent, found, or dropped, so many seconds after it was written."""

    def again(self, why: str) -> None:
        """Sending failed and will be tried again."""

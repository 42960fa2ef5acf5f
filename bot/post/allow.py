"""Who may use the bot: the ids that SHIFTMATHS_ALLOW names. Nobody named means everybody."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Allow:
    """The ids that may use the bot: of chats, rooms or users as the platform writes them, or ":server" for all of it."""

    ids: frozenset[str] = frozenset()

    @classmethod
    def read(cls, text: str) -> "Allow":
        """Ids separated by commas or spaces."""
        return cls(frozenset(text.replace(",", " ").split()))

    def permits(self, *ids: str) -> bool:
        """Whether any of these (the chat, the user) is allowed."""
        return not self.ids or any(one in self.ids or self._server(one) in self.ids for one in ids)

    @staticmethod
    def _server(one: str) -> str:
        _, colon, server = one.partition(":")
        return colon + server if colon else one

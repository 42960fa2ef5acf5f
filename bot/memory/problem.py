"""What can go wrong with the memory, in words for whoever runs the bot."""


class MemoryProblem(Exception):
    """The memory cannot be opened, read or written; str() is one plain sentence without passwords."""

"""What can go wrong, sorted once: the person's input, a thing that is not there, the world outside.

    Trouble          the world's fault or the input's: say the sentence, keep working
    ├── BadInput     one sentence: what is wrong and what to do; `field` names the entry field
    ├── NotFound     asked for by code, number or title, and not in this store
    └── StoreTrouble the disk, the database or a newer version stands in the way

Anything else that is raised is a fault of the program.
"""


class Trouble(Exception):
    """Something a person can be told in one sentence."""

    def __init__(self, sentence: str, *, field: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field


class BadInput(Trouble):
    """What was typed, scanned or chosen cannot be taken as it is."""


class NotFound(Trouble):
    """Nothing in this store answers to that."""


class StoreTrouble(Trouble):
    """The store cannot be opened or written."""

"""A measuring sheet looked over: what cannot be is refused, what looks like a slip is asked."""

from bagtag.domain.measuring.check_questions import questions
from bagtag.domain.measuring.check_sheet import checked

__all__ = ["checked", "questions"]

"""Bagtag: a bench tool for people who take machines apart and put them back."""

__version__ = "0.1.0"

"""The one field above everything: a line of tape, a code, or a word to find."""

"""Measuring: sheets, readings and their limits, verdicts, shims. Figures are decimals, so that a
reading that stands at its limit stands exactly there."""

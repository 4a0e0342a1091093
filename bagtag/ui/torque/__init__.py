"""Torque at the bench: units together, the sense of a figure, adapters, the list of wrenches."""

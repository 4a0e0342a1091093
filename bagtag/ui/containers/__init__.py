"""Containers, one in another, and what lies in them."""

"""The bench card: one removal, readable from a metre away, and its acts."""

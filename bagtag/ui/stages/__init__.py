"""The stages between strip and close, and the pieces they share."""

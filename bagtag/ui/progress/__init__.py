"""How far the build has come, and the next step."""

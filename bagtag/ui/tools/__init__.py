"""What to lay out for the build, laid out, and counted back."""

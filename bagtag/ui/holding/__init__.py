"""What is holding the job up: what to chase first, and from which day on what can go in."""

"""What is printed, previewed as it will be: labels and the checklist."""

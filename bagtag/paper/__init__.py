"""What is printed: label stock, labels, checklist."""

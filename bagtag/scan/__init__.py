"""What is read: codes in pictures, scanner keystrokes, masking-tape lines."""

"""Small parts that the forms are made of."""

"""What is at outside shops: sent as a batch, looked at when it is back."""

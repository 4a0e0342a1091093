"""Photos of a removal: chosen, dropped, pasted, watched for, looked at."""

"""What a code does, however it comes: typed, scanned, photographed, seen by the camera."""

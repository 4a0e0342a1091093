"""The Qt window: shows state, calls services."""

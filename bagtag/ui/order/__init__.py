"""The order of the build in the window: what can go in now, the plan, its rules."""

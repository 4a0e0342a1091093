"""What every page with a limit says."""

MANUAL = "The maker's manual overrides every limit and every figure given here."

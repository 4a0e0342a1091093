"""The window's Measure: parts to decide, a sheet as one page, what it is measured with."""

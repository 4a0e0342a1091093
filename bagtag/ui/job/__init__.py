"""The job: machine, datum and areas."""

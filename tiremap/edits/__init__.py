"""Every change a user can make: functions from a job to a job, one file per subject."""

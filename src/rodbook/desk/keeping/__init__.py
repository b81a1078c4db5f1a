"""What is kept stays whole: the home folder, backups, soundness, upgrades, the log, and what the disk refuses."""

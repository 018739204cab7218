"""Job files, their upgrades, and the settings folder."""

"""What is fitted and how: the shop's stock of repair units and the unit each injury takes."""

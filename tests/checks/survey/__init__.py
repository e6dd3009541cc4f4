"""Old timber: surveys, tests on site, what settles."""

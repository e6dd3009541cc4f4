"""Old timber: clear wood, strength ratios of what is seen in it, tests made on site (ASTM D2555, ASTM D245)."""

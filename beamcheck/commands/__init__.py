"""Commands that talk with somebody: `new` and `ask`. Only click is loaded with them."""

//! Looking at the skin: the refill timer, photos, what changed and what is next.

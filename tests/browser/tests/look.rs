//! A look: the refill timer, photos, what is next, what is given besides.

//! What this phone can do when something falls due.

//! What the phone can do when something falls due.

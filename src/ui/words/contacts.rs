//! Whom the clinic calls.

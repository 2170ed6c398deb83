//! The clock between rounds.

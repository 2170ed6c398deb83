//! The hand-over sheets.

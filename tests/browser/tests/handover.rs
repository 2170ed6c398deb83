//! Handing over, and whom to call.

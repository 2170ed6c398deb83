//! Checks against the outside world. Each names its source in a line beside it, or says 'common
//! practice, no source' or 'from memory'.

mod dilution;

//! Rehearsal: a simulated patient, the scenarios that it comes in, and the debrief of what was done.

//! Rehearsal: scenarios, the simulated patient, the debrief.

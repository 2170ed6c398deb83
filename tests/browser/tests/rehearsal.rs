//! Rehearsal: played, debriefed, and kept apart.

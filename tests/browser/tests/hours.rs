//! A case of several rounds, its clock shifted, killed and asleep.

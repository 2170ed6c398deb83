//! What must hold for any input.

mod dilution;
mod dose;
mod grid;
mod happened;
mod hours;
mod journal;
mod measure;
mod outlines;
mod perfusion;
mod photo;
mod rehearsal;
mod rounds;
mod stock;

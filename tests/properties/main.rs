//! What must hold for any input.

mod archive;
mod casefile;
mod dilution;
mod dose;
mod faults;
mod followed;
mod forms;
mod fuzz;
mod grid;
mod happened;
mod hours;
mod journal;
mod measure;
mod outlines;
mod packs;
mod papers;
mod perfusion;
mod photo;
mod rehearsal;
mod restore;
mod rounds;
mod stock;

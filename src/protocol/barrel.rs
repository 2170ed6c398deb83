//! What a syringe promises: tolerance, marks and dead space by capacity, ISO 7886-1.

use super::source::SYRINGE_2017;
use super::value::{Basis, PerMille};
use crate::measure::Volume;

/// Tolerance on the volume expelled from a syringe of a class of capacities.
#[derive(Clone, Copy, Debug)]
pub struct Class {
    /// Capacities below this belong to the class.
    pub below: Volume,
    /// Below half the capacity: thousandths of the capacity ...
    pub small_of_capacity: PerMille,
    /// ... plus thousandths of the volume expelled.
    pub small_of_expelled: PerMille,
    /// From half the capacity: thousandths of the volume expelled.
    pub large_of_expelled: PerMille,
    /// Most volume left in the nozzle.
    pub dead_space: Volume,
    /// Widest interval between marks.
    pub widest_marks: Volume,
}

const fn class(below: u64, small: (u32, u32), large: u32, dead: u64, marks: u64) -> Class {
    Class {
        below: Volume::ul(below),
        small_of_capacity: PerMille(small.0),
        small_of_expelled: PerMille(small.1),
        large_of_expelled: PerMille(large),
        dead_space: Volume::ul(dead),
        widest_marks: Volume::ul(marks),
    }
}

/// The classes, smallest first. The 1 mL row and the small-volume rule at 10 mL were seen second
/// hand; the other rows, dead space and marks are from memory.
pub const CLASSES: &[Class] = &[
    class(2_000, (15, 20), 50, 70, 50),
    class(5_000, (15, 20), 50, 70, 200),
    class(10_000, (15, 10), 40, 75, 500),
    class(20_000, (15, 10), 40, 100, 1_000),
];

/// Where the tolerance rules were seen.
pub const BASIS: Basis = Basis::SecondHand(SYRINGE_2017);

/// The class of a syringe; the largest for anything above the table.
pub fn class_of(capacity: Volume) -> &'static Class {
    CLASSES.iter().find(|class| capacity < class.below).unwrap_or(&CLASSES[CLASSES.len() - 1])
}

/// Syringes found in a clinic: capacity and interval of the marks. From memory; the one in the hand
/// decides.
pub const COMMON: &[(Volume, Volume)] = &[
    (Volume::ul(300), Volume::ul(10)),
    (Volume::ul(500), Volume::ul(10)),
    (Volume::ml(1), Volume::ul(10)),
    (Volume::ml(2), Volume::ul(100)),
    (Volume::ml(3), Volume::ul(100)),
    (Volume::ml(5), Volume::ul(200)),
    (Volume::ml(10), Volume::ul(500)),
];

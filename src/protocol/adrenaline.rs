//! Adrenaline into muscle, 1 mg/mL, by age: two national tables that differ.

use super::source::{ANAPHYLAXIS_AU, ANAPHYLAXIS_UK, Source};
use super::values::Region;
use crate::measure::{Span, Volume};

/// One row: an age range in whole months, both ends included, and the volume of 1 mg/mL.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    /// Youngest, in months.
    pub from_months: u32,
    /// Oldest, in months.
    pub to_months: u32,
    /// Least volume of 1 mg/mL.
    pub low: Volume,
    /// Most volume of 1 mg/mL.
    pub high: Volume,
}

const fn row(from_months: u32, to_months: u32, low: u64, high: u64) -> Row {
    Row { from_months, to_months, low: Volume::ul(low), high: Volume::ul(high) }
}

/// Above this there is one dose for all.
const NO_LIMIT: u32 = u32::MAX;

/// The UK table. "Over 12" is read as from the 13th birthday; "small or prepubertal" is asked.
const UK: &[Row] = &[
    row(0, 5, 100, 150),
    row(6, 71, 150, 150),
    row(72, 155, 300, 300),
    row(156, NO_LIMIT, 500, 500),
];

/// The Australian table, as printed: its age bands touch, and an age in two of them has both doses.
/// Nothing is left out between them.
const AUSTRALIA: &[Row] = &[
    row(0, 11, 50, 100),
    row(12, 35, 100, 100),
    row(24, 47, 150, 150),
    row(48, 83, 200, 200),
    row(84, 131, 300, 300),
    row(120, 155, 400, 400),
    row(156, NO_LIMIT, 500, 500),
];

/// The dose for a small or prepubertal person over 12, UK table.
pub const UK_SMALL: Volume = Volume::ul(300);

/// Micrograms of adrenaline in a microlitre of the 1 mg/mL solution that every row is for.
pub const MICROGRAMS_PER_UL: u64 = 1;

/// The rows of a region's table.
pub const fn table(region: Region) -> &'static [Row] {
    match region {
        Region::Uk => UK,
        Region::Australia => AUSTRALIA,
    }
}

/// Who publishes a region's table.
pub const fn source(region: Region) -> Source {
    match region {
        Region::Uk => ANAPHYLAXIS_UK,
        Region::Australia => ANAPHYLAXIS_AU,
    }
}

/// The age that a dose is shown for until another is typed: a grown person.
pub const GROWN_MONTHS: u32 = 18 * 12;

/// Observation after a reaction that settled, UK rule: the shortest.
/// Source: `ANAPHYLAXIS_UK_REVIEW`, table 2.
pub const OBSERVE_SHORT: Span = Span::hours(2);
/// After two doses, or a biphasic reaction before. Source: `ANAPHYLAXIS_UK_REVIEW`, table 2.
pub const OBSERVE_MIDDLE: Span = Span::hours(6);
/// After more than two doses, severe breathing trouble, at night or far from help.
/// Source: `ANAPHYLAXIS_UK_REVIEW`, table 2.
pub const OBSERVE_LONG: Span = Span::hours(12);

/// From so many doses on the middle observation is the least, above them the long one.
/// Source: `ANAPHYLAXIS_UK_REVIEW`, table 2.
pub const MIDDLE_FROM_DOSES: usize = 2;
/// A good response, for the shortest observation, comes within this time of one dose.
/// Source: `ANAPHYLAXIS_UK_REVIEW`, table 2.
pub const GOOD_RESPONSE: (Span, Span) = (Span::minutes(10), Span::minutes(15));
/// And that dose was given within this time of onset. Source: `ANAPHYLAXIS_UK_REVIEW`, table 2.
pub const DOSE_WITHIN: Span = Span::minutes(30);

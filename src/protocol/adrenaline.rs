//! Adrenaline into muscle, 1 mg/mL, by age: two national tables that differ. One of them goes by
//! weight as well.

use super::source::{
    ANAPHYLAXIS_AU, ANAPHYLAXIS_UK, ANAPHYLAXIS_UK_REVIEW, OBSERVATION_AU, Source,
};
use super::value::Basis;
use super::values::Region;
use crate::measure::{Mass, Span, Volume};

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

/// A dose for each kilogram, in micrograms.
#[derive(Clone, Copy, Debug)]
pub struct ByWeight {
    /// Micrograms for each kilogram.
    pub micrograms_per_kg: u64,
    /// No more than this at once.
    pub most: Volume,
    /// Who says so.
    pub source: Source,
}

/// The dose by weight where a region's table has one; the UK table goes by age alone.
pub const fn by_weight(region: Region) -> Option<ByWeight> {
    match region {
        Region::Uk => None,
        Region::Australia => {
            Some(ByWeight { micrograms_per_kg: 10, most: Volume::ul(500), source: ANAPHYLAXIS_AU })
        }
    }
}

/// The weights that the Australian table prints beside its ages, with the volumes printed there: from
/// kilograms, to kilograms, least and most. Source: `ANAPHYLAXIS_AU`.
pub const AUSTRALIA_WEIGHTS: &[(Mass, Mass, Volume, Volume)] = &[
    (Mass::kg(5), Mass::kg(10), Volume::ul(50), Volume::ul(100)),
    (Mass::kg(10), Mass::kg(10), Volume::ul(100), Volume::ul(100)),
    (Mass::kg(15), Mass::kg(15), Volume::ul(150), Volume::ul(150)),
    (Mass::kg(20), Mass::kg(20), Volume::ul(200), Volume::ul(200)),
    (Mass::kg(30), Mass::kg(30), Volume::ul(300), Volume::ul(300)),
    (Mass::kg(40), Mass::kg(40), Volume::ul(400), Volume::ul(400)),
    (Mass::kg(50), HEAVIEST, Volume::ul(500), Volume::ul(500)),
];

/// The lightest person that the weights are printed for. Source: `ANAPHYLAXIS_AU`.
pub const LIGHTEST: Mass = Mass::kg(5);
/// Heavier than this is taken for a slip of the finger. Basis: the app's own proposal,
/// [`WEIGHT_CHECKS_BASIS`].
pub const HEAVIEST: Mass = Mass::kg(300);
/// A dose by weight so many times smaller or larger than the one by age is asked about: 7 kg typed
/// for 70. Basis: the app's own proposal, [`WEIGHT_CHECKS_BASIS`].
pub const ODD_FOR_AGE: u64 = 2;
/// How well [`HEAVIEST`] and [`ODD_FOR_AGE`] are founded.
pub const WEIGHT_CHECKS_BASIS: Basis = Basis::Proposal;
/// The mark of a 1 mL syringe that a dose by weight is rounded to.
pub const DRAWN_TO: Volume = Volume::ul(10);

/// Months of a year, for the ages of the tables.
pub const MONTHS_OF_YEAR: u32 = 12;

/// The age that a dose is shown for until another is typed: a grown person.
pub const GROWN_MONTHS: u32 = 18 * MONTHS_OF_YEAR;

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

/// Observation in Australia, the shortest. From memory ([`observation_basis`]); it is to be looked up
/// in `OBSERVATION_AU`.
pub const AU_OBSERVE: Span = Span::hours(4);
/// From so many doses on a night in hospital is considered there. From memory, as [`AU_OBSERVE`].
pub const AU_OVERNIGHT_FROM_DOSES: usize = 2;

/// How well founded the lengths of observation are.
pub const fn observation_basis(region: Region) -> Basis {
    match region {
        Region::Uk => Basis::Published(ANAPHYLAXIS_UK_REVIEW),
        Region::Australia => Basis::FromMemory,
    }
}

/// How well founded the moment is from which they are counted. No source read here names one for the
/// UK hours: that they run from when the signs had settled is the app's own proposal. In Australia
/// they run from the last dose, from memory.
pub const fn observation_start_basis(region: Region) -> Basis {
    match region {
        Region::Uk => Basis::Proposal,
        Region::Australia => Basis::FromMemory,
    }
}

/// Who says how long to watch; where that is from memory, where it is to be looked up.
pub const fn observation_source(region: Region) -> Source {
    match region {
        Region::Uk => ANAPHYLAXIS_UK_REVIEW,
        Region::Australia => OBSERVATION_AU,
    }
}

//! Units for each 0.1 mL of filler in planned work. The figures span a factor of a hundred, so they
//! are shown as a list and never as one number.

use super::source as src;
use super::value::Basis;
use crate::measure::{Units, Volume};

/// Filler that every figure of planned work is counted for.
pub const PER: Volume = Volume::ul(100);

/// What one source used for each [`PER`] of filler.
#[derive(Clone, Copy, Debug)]
pub struct Report {
    /// Lowest.
    pub low: Units,
    /// Highest.
    pub high: Units,
    /// How well founded.
    pub basis: Basis,
    /// Under which conditions.
    pub setting: &'static str,
}

const fn report(low: u64, high: u64, basis: Basis, setting: &'static str) -> Report {
    Report { low: Units::milli(low), high: Units::milli(high), basis, setting }
}

/// The reports, lowest first.
pub const ALL: &[Report] = &[
    report(
        1_500,
        9_000,
        Basis::Published(src::NODULES_2018),
        "trial, small nodules, weekly, three times",
    ),
    report(
        1_250,
        10_000,
        Basis::Published(src::BOLUS_2021),
        "human, 0.2 mL; the firmest gel needed more than 10",
    ),
    report(5_000, 10_000, Basis::FromMemory, "5 for a 20 mg/mL gel, 10 for 24 mg/mL"),
    report(15_000, 30_000, Basis::CommonPractice, "planned work"),
    report(
        50_000,
        150_000,
        Basis::Published(src::RESISTANT_2025),
        "in vitro: 50 for soft gels, 150 for the most resistant",
    ),
];

//! How late treatment still helped, as reported. No figure here is a deadline.

use super::source as src;
use super::value::Basis;
use crate::measure::Span;

/// One report of a time within which treatment did better.
#[derive(Clone, Copy, Debug)]
pub struct Window {
    /// Treated within this time of onset.
    pub within: Span,
    /// How well founded.
    pub basis: Basis,
    /// What was seen.
    pub setting: &'static str,
}

const fn window(within: Span, basis: Basis, setting: &'static str) -> Window {
    Window { within, basis, setting }
}

/// The windows reported, shortest first.
pub const ALL: &[Window] = &[
    window(Span::hours(4), Basis::Published(src::RABBIT_2019), "rabbit ear: better up to 4 h"),
    window(Span::hours(24), Basis::Published(src::CONSENSUS_2015), "best outcomes within 24 h"),
    window(
        Span::hours(24),
        Basis::Published(src::CASES_2023),
        "high doses within 24 h stopped progression",
    ),
    window(
        Span::days(2),
        Basis::Published(src::HIGH_DOSE_2017),
        "no skin lost if started within 2 days",
    ),
    window(
        Span::days(2),
        Basis::SecondHand(src::LATE_2015),
        "later than 2 days: 85 % of those with necrosis, 15 % of those who recovered",
    ),
];

/// Onset after this is seen in most reported cases: 12 of 16 began 6 to 24 h after injection.
/// Source: `DELAYED_2020`.
pub const DELAYED_ONSET_FROM: Span = Span::hours(6);

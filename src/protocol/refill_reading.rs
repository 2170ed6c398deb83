//! How refill is read: how often, how steadily pressed, and which times are usual.

use super::source as src;
use super::value::Basis;
use crate::measure::Span;
use std::ops::RangeInclusive;

/// Readings on each side. The median of three is not moved by one slip of the finger.
/// Basis: the app's own proposal, [`COUNT_BASIS`].
pub const COUNT: usize = 3;
/// How well [`COUNT`] is founded.
pub const COUNT_BASIS: Basis = Basis::Proposal;

/// By how much a press may be shorter or longer than the guide
/// ([`Protocol::refill_press`](super::Protocol::refill_press)) before its reading is marked. That a
/// longer press lengthens refill is published; how much is too much is this app's proposal.
pub const PRESS_TOLERANCE: Span = Span::seconds(1);
/// How well [`PRESS_TOLERANCE`] is founded.
pub const PRESS_TOLERANCE_BASIS: Basis = Basis::Proposal;
/// Who says that the length of the press changes refill.
pub const PRESS_MATTERS: Basis = Basis::Published(src::REFILL_2015);

/// The quickest reading that nobody is asked about. Medians of healthy people begin at 0.7 s; below
/// half a second a second tap of the same finger is likelier.
pub const USUAL_LOW: Span = Span::millis(500);
/// The slowest reading that nobody is asked about: more than twice every published upper limit. Not
/// a limit of health; skin without blood may take longer or not refill at all.
pub const USUAL_HIGH: Span = Span::seconds(10);
/// How well [`USUAL_LOW`] and [`USUAL_HIGH`] are founded; the medians are those of
/// [`REFILL_1988`](src::REFILL_1988).
pub const USUAL_BASIS: Basis = Basis::Proposal;

/// The usual readings, in milliseconds, for [`tenfold_slip`](super::tenfold_slip).
pub const fn usual_millis() -> RangeInclusive<u64> {
    USUAL_LOW.as_millis()..=USUAL_HIGH.as_millis()
}

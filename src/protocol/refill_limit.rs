//! Limits for capillary refill time. None was measured on facial skin: the opposite side is the
//! better control, and a fixed limit calls up to 29 % of healthy elderly people slow.

use super::source as src;
use super::value::Basis;
use crate::measure::Span;

/// Whom a limit is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Men under [`ELDERLY_FROM_YEARS`].
    Men,
    /// Women under [`ELDERLY_FROM_YEARS`].
    Women,
    /// Everybody from [`ELDERLY_FROM_YEARS`].
    Elderly,
    /// Adults, without distinction.
    Adults,
}

/// One source's upper limit for a group.
#[derive(Clone, Copy, Debug)]
pub struct Limit {
    /// Whom it is for.
    pub group: Group,
    /// The longest time called normal.
    pub upper: Span,
    /// How well founded.
    pub basis: Basis,
    /// Where on the body, and how.
    pub setting: &'static str,
}

/// Age from which the filler guidance uses the limit for the elderly.
/// Source: `OCCLUSION_2020`, second hand.
pub const ELDERLY_FROM_YEARS: u32 = 65;

const fn limit(group: Group, millis: u64, basis: Basis, setting: &'static str) -> Limit {
    Limit { group, upper: Span::millis(millis), basis, setting }
}

/// The limits; the ones used in filler guidance first.
pub const ALL: &[Limit] = &[
    limit(
        Group::Men,
        2_000,
        Basis::SecondHand(src::OCCLUSION_2020),
        "filler guidance, men under 65",
    ),
    limit(
        Group::Women,
        3_000,
        Basis::SecondHand(src::OCCLUSION_2020),
        "filler guidance, women under 65",
    ),
    limit(
        Group::Elderly,
        4_000,
        Basis::SecondHand(src::OCCLUSION_2020),
        "filler guidance, from 65",
    ),
    limit(Group::Women, 2_900, Basis::Published(src::REFILL_1988), "finger, 95 % of healthy women"),
    limit(
        Group::Elderly,
        4_500,
        Basis::Published(src::REFILL_1988),
        "finger, 95 % of healthy elderly people",
    ),
    limit(Group::Adults, 3_500, Basis::Published(src::REFILL_2008), "finger, 95 % of 1000 adults"),
];

/// The limit that filler guidance uses for a group.
pub const fn guidance(group: Group) -> Span {
    match group {
        // Not knowing whom, the strictest limit is the safe one.
        Group::Men | Group::Adults => ALL[0].upper,
        Group::Women => ALL[1].upper,
        Group::Elderly => ALL[2].upper,
    }
}

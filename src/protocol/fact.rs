//! Findings that are told to the user and enter no calculation.

use super::source as src;
use super::value::Basis;
use crate::measure::Span;

/// So many of so many.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// How many had it.
    pub count: u32,
    /// Of how many.
    pub of: u32,
    /// How well founded.
    pub basis: Basis,
}

const fn share(count: u32, of: u32, basis: Basis) -> Share {
    Share { count, of, basis }
}

/// Wasp-allergic people without immunotherapy who were prick-positive to medical hyaluronidase.
pub const WASP_POSITIVE: Share = share(5, 23, Basis::Published(src::WASP_2024));
/// The same after venom immunotherapy.
pub const DESENSITISED_POSITIVE: Share = share(0, 60, Basis::Published(src::WASP_2024));
/// Bee-allergic people sensitised to bee hyaluronidase.
pub const BEE_SENSITISED: Share = share(45, 100, Basis::Published(src::VENOM_2024));
/// Healthy older people whom a fixed limit of refill calls slow.
pub const REFILL_FALSE_ALARMS: Share = share(29, 100, Basis::Published(src::REFILL_1988));

/// How long after something else may come or goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct After {
    /// From when.
    pub from: Span,
    /// Until when; the same where one figure is given.
    pub to: Span,
    /// How well founded.
    pub basis: Basis,
}

const fn after(from: Span, to: Span, basis: Basis) -> After {
    After { from, to, basis }
}

/// When pustules come on skin that was short of blood.
pub const PUSTULES: After =
    after(Span::hours(72), Span::hours(72), Basis::Published(src::STAGES_2021));
/// How long gel goes on changing after the enzyme; the figure is when it was looked at last.
pub const GEL_CHANGES: After =
    after(Span::days(14), Span::days(14), Basis::Published(src::BOLUS_2021));
/// When a test into the skin is read again for a late reaction, in guidelines on allergy to drugs of
/// any kind; none of them is on this enzyme.
pub const TEST_READ_AGAIN: After =
    after(Span::hours(24), Span::hours(72), Basis::Published(src::INTRADERMAL_2020));

//! Findings that are told to the user and enter no calculation.

use super::source as src;
use super::value::Basis;

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

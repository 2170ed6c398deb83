//! Emergency numbers, proposed by country. The clinic confirms its own: none of these is dialled
//! before.

use super::value::Basis;
use super::values::Region;

/// A country that a region's table is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Country {
    /// United Kingdom.
    Uk,
    /// Australia.
    Australia,
    /// New Zealand.
    NewZealand,
}

/// An emergency number as it is proposed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proposed {
    /// As it is dialled.
    pub number: &'static str,
    /// Where.
    pub country: Country,
    /// Whether it is for mobile phones alone.
    pub mobile: bool,
}

const fn proposed(number: &'static str, country: Country, mobile: bool) -> Proposed {
    Proposed { number, country, mobile }
}

const UK: &[Proposed] = &[proposed("999", Country::Uk, false), proposed("112", Country::Uk, false)];

/// The region's table is for two countries, and their numbers differ.
const AUSTRALIA: &[Proposed] = &[
    proposed("000", Country::Australia, false),
    proposed("112", Country::Australia, true),
    proposed("111", Country::NewZealand, false),
];

/// What is proposed for a region, the usual first.
pub const fn numbers(region: Region) -> &'static [Proposed] {
    match region {
        Region::Uk => UK,
        Region::Australia => AUSTRALIA,
    }
}

/// How well every one of them is founded: common knowledge there, and nobody opened a source.
pub const BASIS: Basis = Basis::FromMemory;

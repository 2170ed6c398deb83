//! What a clinical value is made of: a quantity, its bounds, and who says so.

use super::source::Source;
use crate::measure::{Area, Length, Span, Strength, Units, Volume};
use serde::{Deserialize, Serialize};

/// A number with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Quantity {
    /// Enzyme activity.
    Units(Units),
    /// A volume of liquid.
    Volume(Volume),
    /// Units per millilitre.
    Strength(Strength),
    /// Skin surface.
    Area(Area),
    /// A length on the skin.
    Length(Length),
    /// A time.
    Span(Span),
    /// A plain count.
    Count(u32),
    /// A proportion, in thousandths.
    PerMille(PerMille),
}

impl Quantity {
    /// The number in the finest unit of its kind, for comparing two of the same kind.
    pub fn raw(self) -> u64 {
        match self {
            Self::Units(units) => units.raw(),
            Self::Volume(volume) => volume.raw(),
            Self::Strength(strength) => strength.in_one_ml().raw(),
            Self::Area(area) => area.raw(),
            Self::Length(length) => length.raw(),
            Self::Span(span) => span.as_millis(),
            Self::Count(count) => u64::from(count),
            Self::PerMille(part) => u64::from(part.0),
        }
    }

    /// Whether both measure the same thing.
    pub fn same_kind(self, other: Self) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }
}

/// A type that a [`Quantity`] can hold; lets [`Protocol`](super::Protocol) have typed fields and
/// still be listed.
pub trait Kind: Copy {
    /// Into the common form.
    fn wrap(self) -> Quantity;
    /// Back, if it is of this kind.
    fn unwrap(quantity: Quantity) -> Option<Self>;
}

macro_rules! kinds {
    ($($type:ty => $variant:ident),* $(,)?) => {
        $(impl Kind for $type {
            fn wrap(self) -> Quantity { Quantity::$variant(self) }
            fn unwrap(quantity: Quantity) -> Option<Self> {
                match quantity { Quantity::$variant(inner) => Some(inner), _ => None }
            }
        })*
    };
}

kinds! {
    Units => Units, Volume => Volume, Strength => Strength, Area => Area, Length => Length,
    Span => Span, u32 => Count, PerMille => PerMille,
}

/// A proportion in thousandths: 7 % is 70.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PerMille(pub u32);

/// How well a number is founded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Read in the source's own abstract, label or table.
    Published(Source),
    /// Read in a page that reports the source.
    SecondHand(Source),
    /// A fact of the trade. Common practice, no source.
    CommonPractice,
    /// From memory; nobody opened a source.
    FromMemory,
    /// Computed here from a source's figures; how stands beside the number.
    DerivedFrom(Source),
    /// This app's own proposal, to be set by the clinic.
    Proposal,
    /// Invented for teaching: no clinical evidence, and nobody is treated by it.
    Invented,
}

impl Basis {
    /// The publication, where there is one.
    pub const fn source(self) -> Option<Source> {
        match self {
            Self::Published(source) | Self::SecondHand(source) | Self::DerivedFrom(source) => {
                Some(source)
            }
            _ => None,
        }
    }
}

/// What one source says of a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The lowest number it supports.
    pub low: Quantity,
    /// The highest number it supports; the same as `low` for a single figure.
    pub high: Quantity,
    /// How well founded.
    pub basis: Basis,
    /// Under which conditions it was found, in the source's terms.
    pub setting: &'static str,
}

/// Who may change a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Control {
    /// The clinic may set it within the bounds.
    Clinic,
    /// It stands as published.
    Fixed,
}

/// One clinical value, with all that is known of it.
#[derive(Clone, Copy, Debug)]
pub struct Value {
    /// Which one.
    pub id: super::Id,
    /// The number in force unless the clinic sets another.
    pub default: Quantity,
    /// No lower number is accepted.
    pub low: Quantity,
    /// No higher number is accepted.
    pub high: Quantity,
    /// Whether the clinic may set it.
    pub control: Control,
    /// What the sources say; never empty. The first is the default's own.
    pub findings: &'static [Finding],
}

/// Why a number was not accepted for a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It is outside the bounds.
    OutOfBounds {
        /// The lowest accepted.
        low: Quantity,
        /// The highest accepted.
        high: Quantity,
    },
    /// It measures something else.
    WrongKind,
    /// It stands as published.
    Fixed,
}

impl Value {
    /// Whether the clinic may set this value to `quantity`.
    ///
    /// # Errors
    /// [`Refused`] with the bounds, or that it is of another kind or fixed.
    pub fn accepts(&self, quantity: Quantity) -> Result<(), Refused> {
        if self.control == Control::Fixed {
            return Err(Refused::Fixed);
        }
        if !quantity.same_kind(self.default) {
            return Err(Refused::WrongKind);
        }
        if (self.low.raw()..=self.high.raw()).contains(&quantity.raw()) {
            Ok(())
        } else {
            Err(Refused::OutOfBounds { low: self.low, high: self.high })
        }
    }

    /// Whether the sources disagree: not every finding supports the default.
    pub fn disputed(&self) -> bool {
        let default = self.default.raw();
        self.findings.iter().any(|f| {
            f.low.same_kind(self.default) && !(f.low.raw()..=f.high.raw()).contains(&default)
        })
    }
}

/// What was meant, if moving the decimal sign of `typed` by one place would make an odd number a
/// usual one: 0.1 for 1, 1500 for 150. `None` when it is usual already, or odd either way.
pub fn tenfold_slip(typed: u64, usual: std::ops::RangeInclusive<u64>) -> Option<u64> {
    if usual.contains(&typed) {
        return None;
    }
    [typed.checked_mul(10), (typed.is_multiple_of(10)).then_some(typed / 10)]
        .into_iter()
        .flatten()
        .find(|meant| usual.contains(meant))
}

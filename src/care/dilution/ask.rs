//! What is asked for, and why it may be impossible.

use super::Syringe;
use crate::measure::{Strength, Units, Volume};
use serde::{Deserialize, Serialize};

/// A vial of freeze-dried powder as supplied. The powder adds no volume.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Vial {
    /// Its whole content, by the label.
    pub units: Units,
    /// Most diluent that it can hold. Anything above the bound of
    /// [`Id::VialHolds`](crate::protocol::Id) counts as that bound.
    pub holds: Volume,
}

/// How much is to be ready at the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Wanted {
    /// At least this many units in the finished syringes together.
    Dose(Units),
    /// At least this volume in the finished syringes together.
    Volume(Volume),
}

impl Wanted {
    /// Whether nothing is wanted.
    pub const fn is_zero(self) -> bool {
        match self {
            Self::Dose(units) => units.is_zero(),
            Self::Volume(volume) => volume.is_zero(),
        }
    }
}

/// One question to the planner. Any value may be put in; what makes no sense is answered with
/// [`Impossible`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ask {
    /// The vial, one like the other.
    pub vial: Vial,
    /// Vials there are; `None` for as many as it takes.
    pub vials: Option<u32>,
    /// Strength to inject.
    pub target: Strength,
    /// How much of it.
    pub wanted: Wanted,
    /// The syringe that everything is drawn with.
    pub syringe: Syringe,
}

impl Ask {
    /// Asks for at least `dose` units at the strength `target`.
    pub const fn dose(
        vial: Vial,
        vials: Option<u32>,
        target: Strength,
        dose: Units,
        syringe: Syringe,
    ) -> Self {
        Self { vial, vials, target, wanted: Wanted::Dose(dose), syringe }
    }

    /// Asks for at least `volume` at the strength `target`.
    pub const fn volume(
        vial: Vial,
        vials: Option<u32>,
        target: Strength,
        volume: Volume,
        syringe: Syringe,
    ) -> Self {
        Self { vial, vials, target, wanted: Wanted::Volume(volume), syringe }
    }
}

/// What keeps a strength from being any higher.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ceiling {
    /// The vial in the least diluent that this syringe measures well, which is given.
    LeastDiluent(Volume),
    /// No stronger solution is known to have been used; whether more dissolves is not known.
    NoneStrongerKnown,
}

/// Why there is no way, with the nearest that there is.
///
/// Asking again with the value given is never refused for the same reason.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Impossible {
    /// No dose or no volume is wanted.
    NothingWanted,
    /// There is no vial.
    NoVials,
    /// The strength wanted is zero.
    NoStrength,
    /// No vial holds so few or so many units.
    VialUnits {
        /// The fewest accepted.
        low: Units,
        /// The most accepted.
        high: Units,
    },
    /// The vial holds less diluent than this syringe measures well.
    VialTooSmall {
        /// The least that it must hold.
        least: Volume,
    },
    /// No vial gives so much strength.
    TooStrong {
        /// The strongest that can be made.
        strongest: Strength,
        /// What limits it.
        ceiling: Ceiling,
    },
    /// Even stepwise a draw would be too small to be measured well.
    TooWeak {
        /// The weakest that can be made.
        weakest: Strength,
    },
    /// The marks of this syringe allow no strength near enough.
    OffMarks {
        /// The nearest strength that can be made.
        nearest: Strength,
    },
    /// The vials do not suffice.
    VialsRunOut {
        /// The vials that were counted on: those there are, or the most that a clinic keeps.
        vials: u32,
        /// The most that they give.
        possible: Wanted,
    },
    /// It takes more syringes of this size than make sense.
    TooManySyringes {
        /// The most in one plan.
        most: u32,
        /// The most that they hold.
        possible: Wanted,
    },
}

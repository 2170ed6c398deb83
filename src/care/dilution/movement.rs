//! What a hand does, what it holds, and what a picture of that needs.

use crate::measure::{Units, Volume};
use serde::{Deserialize, Serialize};

/// One movement of the plunger, or the setting aside of what it filled. Vials and syringes are
/// numbered from 1. Marks are read from zero, so the plunger moves from where it stands to `to`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Movement {
    /// Draw diluent into the empty syringe.
    DrawDiluent {
        /// The mark to stop at.
        to: Volume,
    },
    /// Push all of it into the vial and dissolve.
    Dissolve {
        /// Which vial.
        vial: u32,
    },
    /// Draw from the vial.
    DrawFromVial {
        /// Which vial.
        vial: u32,
        /// The mark to stop at.
        to: Volume,
    },
    /// Draw diluent on top of what is in the syringe, then mix.
    MakeUp {
        /// The mark to stop at.
        to: Volume,
    },
    /// Discard down to a mark.
    Expel {
        /// The mark to stop at.
        to: Volume,
    },
    /// The syringe is ready: label it and take the next.
    Finish {
        /// Which syringe.
        syringe: u32,
    },
}

impl Movement {
    /// The mark where the plunger stops, if it stops at one.
    pub const fn mark(self) -> Option<Volume> {
        match self {
            Self::DrawDiluent { to }
            | Self::DrawFromVial { to, .. }
            | Self::MakeUp { to }
            | Self::Expel { to } => Some(to),
            Self::Dissolve { .. } | Self::Finish { .. } => None,
        }
    }
}

/// What a syringe or a vial holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Contents {
    /// Activity in it.
    pub units: Units,
    /// Liquid in it; in a syringe this is where the plunger stands.
    pub volume: Volume,
}

impl Contents {
    /// Nothing.
    pub const EMPTY: Self = Self { units: Units::ZERO, volume: Volume::ZERO };

    /// Takes `volume` out of this: what is taken (units to the nearest milli-unit, half up) and
    /// the exact rest. `None` if there is not that much.
    pub fn take(self, volume: Volume) -> Option<(Self, Self)> {
        let rest = self.volume.checked_sub(volume)?;
        let (all, part) = (u128::from(self.volume.raw()), u128::from(volume.raw()));
        let taken = (u128::from(self.units.raw()) * part + all / 2).checked_div(all).unwrap_or(0);
        let units = Units::milli(u64::try_from(taken).ok()?);
        Some((Self { units, volume }, Self { units: self.units.checked_sub(units)?, volume: rest }))
    }

    /// Both together.
    pub(super) fn with(self, other: Self) -> Self {
        Self { units: self.units + other.units, volume: self.volume + other.volume }
    }
}

/// Something before and after a movement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// As the movement finds it.
    pub before: Contents,
    /// As it leaves it.
    pub after: Contents,
}

/// Sums up to and with a movement.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Totals {
    /// Vials opened.
    pub vials: u32,
    /// Syringes finished.
    pub syringes: u32,
    /// Units in the finished syringes.
    pub delivered: Units,
    /// Volume in the finished syringes.
    pub volume: Volume,
    /// Units discarded.
    pub expelled: Units,
    /// Diluent used.
    pub diluent: Volume,
}

/// One movement and what it does: everything a picture of it needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stage {
    /// The movement.
    pub movement: Movement,
    /// The syringe in the hand. After [`Movement::Finish`] it is the next, empty one.
    pub syringe: Change,
    /// The vial concerned, by its number.
    pub vial: Option<(u32, Change)>,
    /// Sums with this movement done.
    pub totals: Totals,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_and_what_is_left_are_all_there_was() {
        let all = Contents { units: Units::milli(1_000), volume: Volume::ul(3) };
        let (taken, rest) = all.take(Volume::ul(1)).unwrap();
        assert_eq!((taken.units.raw(), rest.units.raw()), (333, 667));
        // 667 × 1 / 2 is half a milli-unit over: it goes to what is taken.
        let (taken, rest) = rest.take(Volume::ul(1)).unwrap();
        assert_eq!((taken.units.raw(), rest.units.raw()), (334, 333));
        assert_eq!(rest.take(Volume::ul(1)), Some((rest, Contents::EMPTY)));
        assert_eq!(rest.take(Volume::ul(2)), None);
        assert_eq!(Contents::EMPTY.take(Volume::ZERO), Some((Contents::EMPTY, Contents::EMPTY)));
    }

    #[test]
    fn the_plunger_stops_at_a_mark_only_when_it_moves_to_one() {
        let to = Volume::ul(100);
        assert_eq!(Movement::MakeUp { to }.mark(), Some(to));
        assert_eq!(Movement::DrawFromVial { vial: 1, to }.mark(), Some(to));
        assert_eq!(Movement::Dissolve { vial: 1 }.mark(), None);
        assert_eq!(Movement::Finish { syringe: 1 }.mark(), None);
    }
}

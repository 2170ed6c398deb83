//! Strengths and vials that a screen offers to be chosen. Any other within the bounds of
//! [`Protocol`](super::Protocol) can be typed.

use super::source as src;
use super::value::Basis;
use crate::measure::{Strength, Units};

/// A strength that is offered.
#[derive(Clone, Copy, Debug)]
pub struct Offer {
    /// How strong.
    pub strength: Strength,
    /// How well founded.
    pub basis: Basis,
    /// What it is used for.
    pub setting: &'static str,
}

const fn offer(strength: u64, basis: Basis, setting: &'static str) -> Offer {
    Offer { strength: Strength::per_ml(strength), basis, setting }
}

/// For an occlusion.
pub const OCCLUSION: &[Offer] = &[
    offer(300, Basis::CommonPractice, "taking all of a correction away; weaker than usual here"),
    offer(500, Basis::CommonPractice, "occlusion, low end"),
    offer(
        600,
        Basis::CommonPractice,
        "occlusion, high end: 0.4 mL of 1500 in 1 mL made up to 1 mL",
    ),
    offer(1500, Basis::SecondHand(src::TRADE_2022), "upper end named for emergencies"),
];

/// For taking part of a correction away.
pub const PART: &[Offer] = &[
    offer(75, Basis::Published(src::PERIOCULAR_2024), "periocular, used by 31 %"),
    offer(150, Basis::CommonPractice, "small corrections"),
    offer(300, Basis::CommonPractice, "taking all of it away"),
];

/// For taking all of a correction away.
pub const ALL: &[Offer] = &[
    offer(150, Basis::CommonPractice, "small corrections"),
    offer(300, Basis::CommonPractice, "taking all of it away"),
    offer(600, Basis::CommonPractice, "0.4 mL of 1500 in 1 mL made up to 1 mL"),
];

/// Units of the vials on the labels. In the US, 150 and 200 are ready solutions, not powder.
pub const VIALS: &[(Units, Basis)] = &[
    (Units::whole(150), Basis::Published(src::LABEL_DE)),
    (Units::whole(200), Basis::Published(src::LABEL_US)),
    (Units::whole(300), Basis::Published(src::LABEL_DE)),
    (Units::whole(1500), Basis::Published(src::LABEL_UK)),
];

#[cfg(test)]
mod tests {
    use super::super::{Id, Protocol, Quantity};
    use super::*;

    #[test]
    fn whatever_is_offered_is_accepted() {
        let accepts = |id, quantity| Protocol::entry(id).accepts(quantity).is_ok();
        for (id, offers) in
            [(Id::UrgentStrength, OCCLUSION), (Id::PartStrength, PART), (Id::AllStrength, ALL)]
        {
            assert!(offers.iter().all(|offer| accepts(id, Quantity::Strength(offer.strength))));
            let default = Protocol::default().get(id);
            assert!(offers.iter().any(|offer| Quantity::Strength(offer.strength) == default));
        }
        assert!(VIALS.iter().all(|vial| accepts(Id::VialUnits, Quantity::Units(vial.0))));
    }
}

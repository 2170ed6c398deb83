//! Clinical values: names, groups, and how well each is founded.

use super::numbers;
use crate::protocol::{Basis, Id, Protocol, Refused};
use crate::ui::language::spoken;
use crate::ui::parts::Finding;

/// The name of a value.
pub fn value(id: Id) -> &'static str {
    spoken(match id {
        Id::VialUnits => "Units in one vial",
        Id::VialHolds => "Diluent that one vial holds",
        Id::SyringeHolds => "Syringe in the hand",
        Id::SyringeMarks => "Its marks, every",
        Id::UrgentStrength => "Strength, occlusion",
        Id::PartStrength => "Strength, part of a correction",
        Id::AllStrength => "Strength, all of a correction",
        Id::Bolus => "Volume at each point",
        Id::Spacing => "Distance between points",
        Id::Margin => "Points this far outside the outline",
        Id::AreaUnits => "Units for one facial area, a round",
        Id::PerArea => "Units on one cm², as published",
        Id::RoundLow => "Fewest units in a round",
        Id::RoundHigh => "Most units in a round",
        Id::LeastUnits => "Least for a first treatment",
        Id::RoundInterval => "From a round to the next look",
        Id::RoundsBeforeHandover => "Rounds without improvement before handing over",
        Id::FillerLow => "Fewest units for each portion of filler",
        Id::FillerHigh => "Most units for each portion of filler",
        Id::RefillPress => "Press before timing refill",
        Id::RefillAlert => "Refill that may mean compromise",
        Id::RefillNoise => "Difference in refill that counts",
        Id::PainStep => "Fall in pain that counts, of 10",
        Id::SkinTestLow => "Fewest units in a skin test",
        Id::SkinTestHigh => "Most units in a skin test",
        Id::SkinTestRead => "First reading of a skin test",
        Id::SkinTestLast => "Last reading of a skin test",
        Id::AreaQuestion => "Territory asked about twice",
        Id::AreaLimit => "Territory that no face has",
        Id::FillerQuestion => "Filler asked about twice",
        Id::PlannedReview => "Planned work is seen again after",
        Id::ReviewDaily => "An occlusion is reviewed at first every",
        Id::ReviewDailyFor => "Reviewed like this from the first sign for",
        Id::ReviewSpaced => "Later every",
        Id::NewFiller => "New filler after a full removal",
        Id::ReactionRate => "Reactions to the enzyme",
        Id::AdrenalineRepeat => "Adrenaline is repeated after",
        Id::RefractoryDoses => "Doses without improvement: refractory",
        Id::ExpiryNear => "Expiry so near that a thing is to be replaced",
        Id::ExpiryAhead => "Expiry that is named ahead",
        Id::VialsAtHand => "Vials to hold for an occlusion",
    })
}

/// How well a number is founded.
pub fn status(basis: Basis) -> &'static str {
    spoken(match basis {
        Basis::Published(_) => "Published",
        Basis::SecondHand(_) => "Second hand",
        Basis::CommonPractice => "Common practice, no source",
        Basis::FromMemory => "From memory, no source opened",
        Basis::DerivedFrom(_) => "Computed from a source",
        Basis::Proposal => "This app’s proposal, for the clinic to set",
        Basis::Invented => "Invented for teaching, no clinical evidence",
    })
}

/// Where it was found; empty where there is no source.
pub fn citation(basis: Basis) -> String {
    basis.source().map_or_else(String::new, |source| match source.locator {
        "" => source.citation.to_owned(),
        locator => format!("{}, {locator}", source.citation),
    })
}

/// What each source says of a value.
pub fn findings(id: Id) -> Vec<Finding> {
    Protocol::entry(id)
        .findings
        .iter()
        .map(|finding| Finding {
            figure: numbers::quantity_range(finding.low, finding.high),
            setting: spoken(finding.setting).to_owned(),
            citation: citation(finding.basis),
            status: status(finding.basis).to_owned(),
        })
        .collect()
}

/// Why a value was not accepted.
pub fn refused(refused: Refused) -> String {
    match refused {
        Refused::OutOfBounds { low, high } => super::typed::out_of_bounds(low, high),
        Refused::WrongKind => spoken("That measures something else.").to_owned(),
        Refused::Fixed => spoken("It stands as published and cannot be set.").to_owned(),
    }
}

//! What is given besides the enzyme, as each source has it: doses, reasons against, and what does
//! not go together.
//!
//! None of it replaces the enzyme, and pooled cases found no significant effect of any
//! ([`EFFECT`]).

use super::source as src;
use super::value::Basis;
use crate::measure::Span;
use serde::{Deserialize, Serialize};

/// A treatment besides the enzyme.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Adjunct {
    /// A warm compress.
    Warmth,
    /// Massage, tapping.
    Massage,
    /// Aspirin by mouth.
    Aspirin,
    /// Clopidogrel, where aspirin is not tolerated.
    Clopidogrel,
    /// Nitroglycerin paste on the skin.
    Nitroglycerin,
    /// Hyperbaric oxygen, elsewhere.
    Oxygen,
    /// A cold compress, as after filler that went well. Listed because it is often on the skin
    /// already.
    Cold,
}

impl Adjunct {
    /// All of them, those first that the sources say most for.
    pub const ALL: [Self; 7] = [
        Self::Warmth,
        Self::Massage,
        Self::Aspirin,
        Self::Clopidogrel,
        Self::Nitroglycerin,
        Self::Oxygen,
        Self::Cold,
    ];
}

/// How a source stands to an adjunct.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stance {
    /// It is said to help.
    For,
    /// It is named beside others, for a case that asks for it.
    Named,
    /// It is disputed: to be shown as such, never proposed.
    Disputed,
    /// It is advised against.
    Against,
}

/// What one source says of an adjunct.
#[derive(Clone, Copy, Debug)]
pub struct Saying {
    /// Of which.
    pub adjunct: Adjunct,
    /// How it stands to it.
    pub stance: Stance,
    /// How well founded.
    pub basis: Basis,
    /// In which setting.
    pub setting: &'static str,
}

const fn says(adjunct: Adjunct, stance: Stance, basis: Basis, setting: &'static str) -> Saying {
    Saying { adjunct, stance, basis, setting }
}

/// What the sources say of each.
pub const SAYINGS: &[Saying] = &[
    says(
        Adjunct::Warmth,
        Stance::For,
        Basis::Published(src::CONSENSUS_2015),
        "warm compress, beside the enzyme",
    ),
    says(
        Adjunct::Warmth,
        Stance::For,
        Basis::SecondHand(src::OCCLUSION_2020),
        "first, where refill is slow yet below the alert; then the enzyme without delay",
    ),
    says(
        Adjunct::Massage,
        Stance::For,
        Basis::Published(src::CONSENSUS_2015),
        "massage, beside the enzyme",
    ),
    says(
        Adjunct::Massage,
        Stance::For,
        Basis::SecondHand(src::OCCLUSION_2020),
        "massage and tapping first, where refill is slow yet below the alert",
    ),
    says(
        Adjunct::Aspirin,
        Stance::For,
        Basis::Published(src::CONSENSUS_2015),
        "an oral regimen; no dose printed",
    ),
    says(
        Adjunct::Clopidogrel,
        Stance::Named,
        Basis::SecondHand(src::ASPIRIN_QUOTED),
        "in place of aspirin for those allergic to it; a prescriber decides",
    ),
    says(
        Adjunct::Nitroglycerin,
        Stance::Disputed,
        Basis::Published(src::CONSENSUS_2015),
        "paste on the skin: controversial",
    ),
    says(
        Adjunct::Oxygen,
        Stance::Named,
        Basis::Published(src::OXYGEN_2024),
        "2 ATA, 60 minutes a session; beside the enzyme, never in its place; no standard protocol",
    ),
    says(
        Adjunct::Cold,
        Stance::Against,
        Basis::FromMemory,
        "narrows vessels where blood is wanted",
    ),
];

/// Pooled cases: adjuncts made no significant difference to scars.
pub const EFFECT: Basis = Basis::Published(src::SCARS_2024);

/// A mass of a medicine in milligrams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Milligrams(pub u32);

/// How long a regimen goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Course {
    /// Once.
    Once,
    /// This much each day until the occlusion is resolved.
    Daily(Milligrams),
}

/// A dose as a source has it.
#[derive(Clone, Copy, Debug)]
pub struct Regimen {
    /// Of which.
    pub adjunct: Adjunct,
    /// At once.
    pub first: Milligrams,
    /// And then.
    pub then: Course,
    /// How well founded.
    pub basis: Basis,
    /// In which setting.
    pub setting: &'static str,
}

const fn regimen(
    adjunct: Adjunct,
    first: u32,
    then: Course,
    basis: Basis,
    setting: &'static str,
) -> Regimen {
    Regimen { adjunct, first: Milligrams(first), then, basis, setting }
}

const fn daily(mg: u32) -> Course {
    Course::Daily(Milligrams(mg))
}

/// The doses that were seen. They differ; the first of each is the one proposed.
pub const REGIMENS: &[Regimen] = &[
    regimen(
        Adjunct::Aspirin,
        300,
        daily(75),
        Basis::SecondHand(src::ASPIRIN_QUOTED),
        "under the tongue at once, then daily until resolved",
    ),
    regimen(
        Adjunct::Aspirin,
        300,
        daily(75),
        Basis::FromMemory,
        "UK guidance on occlusion has the same figures; not opened",
    ),
    regimen(
        Adjunct::Aspirin,
        650,
        Course::Once,
        Basis::Published(src::ASPIRIN_CASE_2021),
        "United States, one case",
    ),
    regimen(Adjunct::Aspirin, 325, daily(325), Basis::FromMemory, "United States, daily"),
    regimen(
        Adjunct::Clopidogrel,
        300,
        daily(75),
        Basis::SecondHand(src::ASPIRIN_QUOTED),
        "for those allergic to aspirin; a prescriber decides",
    ),
];

/// The dose of aspirin that the UK label has against clots, each day.
/// Source: `ASPIRIN_LABEL_UK`.
pub const ASPIRIN_LABEL_DAILY: Milligrams = Milligrams(300);

/// Something to be asked before aspirin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Concern {
    /// Allergy to aspirin, another salicylate or an NSAID.
    Allergy,
    /// Asthma or hives that such a medicine made worse.
    Asthma,
    /// Haemophilia or another bleeding disorder.
    Bleeding,
    /// A peptic ulcer, now or earlier.
    Ulcer,
    /// Younger than [`ASPIRIN_FROM_YEARS`].
    Young,
    /// The last third of a pregnancy.
    LatePregnancy,
    /// Severe failure of liver, kidney or heart.
    OrganFailure,
    /// Methotrexate, [`METHOTREXATE_WEEKLY`] or more.
    Methotrexate,
    /// An anticoagulant.
    Anticoagulant,
    /// Aspirin or another medicine against platelets, taken already.
    Antiplatelet,
    /// Pregnant, earlier than that.
    Pregnancy,
    /// Breastfeeding.
    Breastfeeding,
}

impl Concern {
    /// All of them, in the order in which they are asked: what forbids it first.
    pub const ALL: [Self; 12] = [
        Self::Allergy,
        Self::Asthma,
        Self::Bleeding,
        Self::Anticoagulant,
        Self::Ulcer,
        Self::Young,
        Self::LatePregnancy,
        Self::OrganFailure,
        Self::Methotrexate,
        Self::Antiplatelet,
        Self::Pregnancy,
        Self::Breastfeeding,
    ];

    /// What a yes means, and how well that is founded.
    pub const fn weight(self) -> (Weight, Basis) {
        const LABEL: Basis = Basis::Published(src::ASPIRIN_LABEL_UK);
        const LEAFLET: Basis = Basis::Published(src::ASPIRIN_LEAFLET_UK);
        match self {
            Self::Allergy | Self::Asthma | Self::Bleeding | Self::Ulcer | Self::Young => {
                (Weight::Forbids, LABEL)
            }
            Self::LatePregnancy | Self::OrganFailure | Self::Methotrexate => {
                (Weight::Forbids, LEAFLET)
            }
            Self::Anticoagulant => (Weight::Asks, LABEL),
            Self::Antiplatelet => (Weight::Asks, Basis::CommonPractice),
            Self::Pregnancy | Self::Breastfeeding => (Weight::Asks, Basis::FromMemory),
        }
    }
}

/// What a yes to a concern means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Aspirin is not given.
    Forbids,
    /// A prescriber is asked first.
    Asks,
}

/// Aspirin is not given below this age. Source: `ASPIRIN_LABEL_UK`.
pub const ASPIRIN_FROM_YEARS: u32 = 16;

/// Methotrexate in a week from which aspirin is not given. Source: `ASPIRIN_LEAFLET_UK`.
pub const METHOTREXATE_WEEKLY: Milligrams = Milligrams(15);

/// Two things that do not go together, or one that spoils the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Conflict {
    /// Warmth widens what cold narrows.
    WarmthWithCold,
    /// Cold skin refills slowly: a reading then says little.
    ColdBeforeReading,
    /// Warm skin refills quickly: a reading then may please wrongly.
    WarmthBeforeReading,
    /// Aspirin and clopidogrel are for one another's place; both together bleed.
    AspirinWithClopidogrel,
    /// Salicylates in large doses may blunt the enzyme.
    AspirinWithEnzyme,
    /// Nitroglycerin lowers the pressure of somebody whose pressure is falling.
    NitroglycerinInReaction,
}

impl Conflict {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::WarmthWithCold,
        Self::ColdBeforeReading,
        Self::WarmthBeforeReading,
        Self::AspirinWithClopidogrel,
        Self::AspirinWithEnzyme,
        Self::NitroglycerinInReaction,
    ];

    /// Who says so, and where it was found.
    pub const fn basis(self) -> (Basis, &'static str) {
        match self {
            Self::WarmthWithCold => (Basis::CommonPractice, "one undoes the other"),
            Self::ColdBeforeReading => {
                (Basis::Published(src::REFILL_1988), "hand in water of 14 °C: 1.3 s became 2.9 s")
            }
            Self::WarmthBeforeReading => (
                Basis::Published(src::REFILL_1993),
                "children: 0.85 s at 25.7 °C, 2.39 s at 19.4 °C",
            ),
            Self::AspirinWithClopidogrel => (
                Basis::SecondHand(src::ASPIRIN_QUOTED),
                "clopidogrel is named in place of aspirin, not beside it",
            ),
            Self::AspirinWithEnzyme => (
                Basis::Published(src::LABEL_US),
                "with large doses of salicylates more enzyme may be needed",
            ),
            Self::NitroglycerinInReaction => (Basis::FromMemory, "it widens vessels everywhere"),
        }
    }
}

/// How long warm or cold skin is left alone before refill is read. Basis: the app's own proposal,
/// [`SETTLE_BASIS`].
pub const SETTLE: Span = Span::minutes(5);
/// How well [`SETTLE`] is founded.
pub const SETTLE_BASIS: Basis = Basis::Proposal;

//! A patient seen again after the treatment, by the same measures as in the hours.

use crate::care::rounds::Look;
use serde::{Deserialize, Serialize};

/// How the patient was seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Seen {
    /// In person.
    #[default]
    InPerson,
    /// By photo or video, or told over the telephone.
    Remotely,
}

/// What skin that was short of blood may come to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Damage {
    /// Pustules.
    Pustules,
    /// Black and firm.
    Coagulation,
    /// Skin coming off.
    Slough,
    /// A dry black crust.
    Eschar,
    /// Signs of infection.
    Infection,
    /// A scar, or a change of colour that stays.
    Scar,
}

/// What became of a planned correction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Corrected {
    /// As it was meant.
    AsMeant,
    /// Filler is left that was to go.
    FillerLeft,
    /// More went than was meant: hollow, or thin skin.
    TooMuch,
}

/// What was found when the patient was seen again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Review {
    /// How.
    pub seen: Seen,
    /// The same measures as in the hours.
    pub look: Look,
    /// What the skin came to.
    pub damage: Vec<Damage>,
    /// Planned work: what became of the correction.
    pub corrected: Option<Corrected>,
}

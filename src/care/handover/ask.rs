//! What is asked of those who take over.

use crate::care::rounds::HandOver;
use crate::protocol::{Basis, source};

/// What is asked of those who take over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ask {
    /// An ambulance, at once.
    Ambulance,
    /// Eye department or emergency department, at once.
    EyesAtOnce,
    /// A stroke team, at once.
    StrokeTeam,
    /// Look for signs of a stroke as well.
    LookForStroke,
    /// No enzyme behind or beside the eye on the strength of this sheet: the evidence does not
    /// support it.
    NotBehindTheEye,
    /// Watch for a second wave of the reaction.
    WatchReaction,
    /// Go on with the enzyme.
    GoOn,
    /// Aim the enzyme by ultrasound: flooding has not helped.
    Ultrasound,
    /// See the skin in person and treat what is dying.
    SkinSpecialist,
    /// Take over.
    TakeOver,
}

impl Ask {
    /// How well it is founded.
    pub const fn basis(self) -> Basis {
        match self {
            Self::EyesAtOnce | Self::NotBehindTheEye => Basis::Published(source::VISION_2021),
            Self::GoOn => Basis::Published(source::HIGH_DOSE_2017),
            Self::Ultrasound => Basis::Published(source::FLOODING_2023),
            Self::SkinSpecialist => Basis::SecondHand(source::OCCLUSION_2020),
            Self::WatchReaction => Basis::Published(source::ANAPHYLAXIS_UK_REVIEW),
            Self::LookForStroke => Basis::FromMemory,
            Self::Ambulance | Self::StrokeTeam | Self::TakeOver => Basis::CommonPractice,
        }
    }

    /// What a reason asks for, the most urgent first.
    pub(super) const fn of(reason: HandOver) -> &'static [Self] {
        match reason {
            HandOver::Sight => {
                &[Self::Ambulance, Self::EyesAtOnce, Self::LookForStroke, Self::NotBehindTheEye]
            }
            HandOver::Stroke => &[Self::Ambulance, Self::StrokeTeam],
            HandOver::Reaction => &[Self::Ambulance, Self::WatchReaction],
            HandOver::NoImprovement => &[Self::SkinSpecialist, Self::GoOn, Self::Ultrasound],
            HandOver::NoEnzyme => &[Self::GoOn],
            HandOver::Necrosis => &[Self::SkinSpecialist, Self::GoOn],
            HandOver::Other => &[Self::TakeOver],
        }
    }
}

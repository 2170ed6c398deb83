//! The form's own terms: what each thing of the app's lists is called in a bundle.
//!
//! Named one by one, so that neither a name changed in the code nor a word on a screen changes what is
//! told to other systems. A thing without a term does not compile.

use crate::care::adjunct::Hindrance;
use crate::care::aftercare::{Corrected, Damage, Seen};
use crate::care::allergy::{Species, Urgency};
use crate::care::refill::Colour;
use crate::care::rounds::{End, Function, HandOver, Temperature};
use crate::care::situation::{Aim, RedFlag, Sign};
use crate::case::Overridden;
use crate::protocol::adjunct::Adjunct;
use crate::protocol::diluent::Diluent;
use crate::protocol::zone::Zone;

/// What has a term.
pub(super) trait Term {
    /// It.
    fn term(self) -> &'static str;
}

/// Terms of the things of one list.
macro_rules! terms {
    ($list:ty { $($thing:pat => $term:literal,)+ }) => {
        impl Term for $list {
            fn term(self) -> &'static str {
                match self {
                    $($thing => $term,)+
                }
            }
        }
    };
}

terms!(Zone {
    Self::UpperLip => "Upper lip",
    Self::LowerLip => "Lower lip",
    Self::NasolabialFold => "Nasolabial fold",
    Self::NoseTip => "Tip of the nose",
    Self::Ala => "Wing of the nose",
    Self::Glabella => "Glabella",
    Self::Forehead => "Forehead",
    Self::Temple => "Temple",
    Self::Cheek => "Cheek",
    Self::Chin => "Chin",
    Self::TearTrough => "Tear trough",
});

terms!(RedFlag {
    Self::Sight => "Change of sight, or pain in the eye",
    Self::Stroke => "Sign of a stroke",
    Self::Airway => "Airway, breathing or collapse: severe reaction",
});

terms!(Sign {
    Self::Pallor => "Pallor",
    Self::Mottling => "Mottling",
    Self::Blue => "Blue or dusky",
    Self::SlowRefill => "Slow refill, by eye",
    Self::Pain => "Pain out of proportion, or growing",
    Self::Coolness => "Cooler than the other side",
    Self::Pustules => "Pustules",
    Self::Blackening => "Black, firm, or an open wound",
});

terms!(Colour {
    Self::Normal => "As the other side",
    Self::Pale => "Pale",
    Self::Mottled => "Mottled",
    Self::Blue => "Blue",
    Self::Black => "Black",
});

terms!(Temperature {
    Self::Warm => "As warm as the other side",
    Self::Cool => "Cooler than the other side",
});

terms!(Function {
    Self::Normal => "As the other side",
    Self::Impaired => "Weaker or number than the other side",
});

terms!(Seen {
    Self::InPerson => "In person",
    Self::Remotely => "Remotely",
});

terms!(Damage {
    Self::Pustules => "Pustules",
    Self::Coagulation => "Black and firm",
    Self::Slough => "Slough",
    Self::Eschar => "Eschar",
    Self::Infection => "Signs of infection",
    Self::Scar => "Scar, or a change of colour that stays",
});

terms!(Corrected {
    Self::AsMeant => "As meant",
    Self::FillerLeft => "Filler is left that was to go",
    Self::TooMuch => "More went than was meant",
});

terms!(Species {
    Self::Bovine => "Bovine",
    Self::Ovine => "Ovine",
    Self::Recombinant => "Human recombinant",
    Self::Unknown => "Not known",
});

terms!(Diluent {
    Self::Saline => "Sodium chloride solution, isotonic",
    Self::BacteriostaticSaline => "Sodium chloride solution, isotonic, with a preservative",
    Self::Water => "Water for injections",
    Self::Lidocaine => "Lidocaine without adrenaline",
});

terms!(Adjunct {
    Self::Warmth => "Warmth",
    Self::Massage => "Massage",
    Self::Aspirin => "Aspirin",
    Self::Clopidogrel => "Clopidogrel",
    Self::Nitroglycerin => "Nitroglycerin",
    Self::Oxygen => "Oxygen",
    Self::Cold => "Cold",
});

terms!(Hindrance {
    Self::Contraindicated => "Contraindicated",
    Self::NotAtHand => "Not at hand",
    Self::NotAllowed => "Nobody here may prescribe it",
    Self::Other => "Another reason, in the notes",
});

terms!(Urgency {
    Self::Urgent => "Urgent",
    Self::Planned => "Planned",
});

terms!(Aim {
    Self::Part => "Part of the filler",
    Self::All => "All of the filler",
});

terms!(End {
    Self::Done => "Done",
    Self::HandedOver(HandOver::Sight) => "Handed over: change of sight",
    Self::HandedOver(HandOver::Stroke) => "Handed over: signs of a stroke",
    Self::HandedOver(HandOver::Reaction) => "Handed over: severe reaction",
    Self::HandedOver(HandOver::NoImprovement) => "Handed over: no improvement",
    Self::HandedOver(HandOver::NoEnzyme) => "Handed over: no more enzyme",
    Self::HandedOver(HandOver::Necrosis) => "Handed over: skin is dying",
    Self::HandedOver(HandOver::Other) => "Handed over: another reason, in the notes",
    Self::Stopped => "Stopped before it was done, for a reason in the notes",
});

terms!(Overridden {
    Self::Situation => "Another way taken than the findings led to",
    Self::Allergy => "Another way taken than the allergy answers led to",
    Self::Readiness => "Readiness for anaphylaxis not confirmed",
    Self::SkinTest => "Skin test not negative, or not done",
    Self::Expired => "Vial past its expiry",
    Self::Dose => "Dose outside the range in force",
    Self::Proposal => "Otherwise than proposed after a look",
    Self::Stop => "Injected in spite of a sign that forbids it",
});

//! What can happen in a case.

use super::Contact;
use crate::care::allergy::{Answers, Urgency};
use crate::care::dilution::Plan;
use crate::care::rounds::{Act, End, Look};
use crate::care::situation::{Aim, Findings, RedFlag};
use crate::care::territory::{Photo, Territory};
use crate::care::{adjunct, aftercare, anaphylaxis, rounds, skin_test};
use crate::kit::{self, Vial};
use crate::measure::{Hash, Moment, Units, Volume};
use crate::plane::Lattice;
use crate::protocol::diluent::Diluent;
use crate::protocol::{Id, Protocol, Quantity, Region};
use serde::{Deserialize, Serialize};

/// The clinic's own reference for a case: at most [`Reference::LONGEST`] characters, never a name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Reference(String);

impl Reference {
    /// The longest reference, in characters.
    pub const LONGEST: usize = 24;

    /// A reference; `None` if it is empty or too long once trimmed.
    pub fn new(text: &str) -> Option<Self> {
        let text = text.trim();
        (1..=Self::LONGEST).contains(&text.chars().count()).then(|| Self(text.to_owned()))
    }

    /// As written.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl TryFrom<String> for Reference {
    type Error = &'static str;
    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::new(&text).ok_or("a reference has 1 to 24 characters")
    }
}

impl From<Reference> for String {
    fn from(reference: Reference) -> Self {
        reference.0
    }
}

/// Why an entry was struck out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum StrikeReason {
    /// Tapped by mistake, at once.
    Slip,
    /// It was not so; how it was stands in the text.
    Wrong(String),
}

/// What the app advised against or asked for, and the clinician did otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Overridden {
    /// The way that the findings led to.
    Situation,
    /// The way that the allergy answers led to.
    Allergy,
    /// Readiness for anaphylaxis, in an urgent case.
    Readiness,
    /// A skin test that was not negative, or not done.
    SkinTest,
    /// A vial past its expiry.
    Expired,
    /// A dose outside the range in force.
    Dose,
    /// The proposal after a look.
    Proposal,
    /// What forbids to inject: a sign that goes before everything, or a severe reaction that was.
    Stop,
}

/// Why a photo was deleted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Removal {
    /// The patient asked for it.
    PatientsWish,
    /// It shows nothing of use, or the wrong thing.
    NotUsable,
}

/// How a case was closed.
pub type Outcome = End;

/// Something that happened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Event {
    /// The case was opened under this set of values.
    Opened {
        /// The clinic's reference.
        reference: Reference,
        /// The values in force.
        protocol: Box<Protocol>,
    },
    /// The clinic set its values; only in the journal of [`CaseId::CLINIC`](super::CaseId::CLINIC).
    Values(Box<Protocol>),
    /// Whom the clinic calls; only in the journal of [`CaseId::CLINIC`](super::CaseId::CLINIC).
    Contacts(Vec<Contact>),
    /// Something happened to the kit; only in the journal of [`CaseId::KIT`](super::CaseId::KIT).
    Kit(kit::Act),
    /// The clinic's reference was changed.
    Renamed(Reference),
    /// What was found at the start, or found anew.
    Found(Box<Findings>),
    /// The way that the clinician took.
    Way {
        /// How urgent.
        urgency: Urgency,
        /// How much is to go, in planned work.
        aim: Option<Aim>,
    },
    /// What was asked about allergy.
    Asked(Answers),
    /// Adrenaline drawn within reach, and somebody told to call.
    Ready,
    /// The skin test.
    SkinTest(skin_test::Act),
    /// The skin to be flooded.
    Territory(Territory),
    /// A photo was taken and kept on this phone.
    Photo(Photo),
    /// A photo was deleted from this phone; what was traced on it stands.
    PhotoRemoved {
        /// The digest of its bytes.
        photo: Hash,
        /// Why.
        why: Removal,
    },
    /// How the points of a grid lie was chosen for this case.
    Lattice(Lattice),
    /// Planned work: how much filler, and the dose chosen for it.
    Filler {
        /// Volume of filler to be taken away.
        volume: Volume,
        /// Units chosen for it.
        dose: Units,
    },
    /// A value was set for this case alone.
    Set(Id, Quantity),
    /// Whose tables go for this case: of adrenaline, and of how long to watch.
    Region(Region),
    /// What the powder is dissolved in.
    Diluent(Diluent),
    /// How the solution is made.
    Preparation(Box<Plan>),
    /// A vial was taken in hand.
    Vial(Vial),
    /// A movement of the preparation was made; its index, from 0.
    Drew(u32),
    /// A second person checked a movement; its index, and who.
    Checked {
        /// Index, from 0.
        movement: u32,
        /// Initials.
        by: String,
    },
    /// The treatment went on.
    Round(rounds::Act),
    /// A severe reaction.
    Anaphylaxis(anaphylaxis::Act),
    /// A sign that goes before everything was noticed, at whatever moment.
    Noticed(RedFlag),
    /// Something given besides the enzyme, or asked about it.
    Adjunct(adjunct::Act),
    /// The patient was seen again after the treatment.
    Review(Box<aftercare::Review>),
    /// When the patient is to be seen again was agreed.
    Appointed(Moment),
    /// The treatment is taken up again: its end and the closing no longer hold, and what was seen is the
    /// look that the next round is decided on. Planned work that turned into an occlusion is urgent
    /// from here on. One entry, so that no kill of the app can leave half of it.
    TakenUp {
        /// What was seen.
        look: Box<Look>,
        /// Why.
        reason: String,
    },
    /// The clinician did otherwise than advised.
    Override {
        /// Than what.
        what: Overridden,
        /// Why, in their words.
        reason: String,
    },
    /// Free text.
    Note(String),
    /// The phone's clock jumped by so many milliseconds, back if negative.
    ClockJumped(i64),
    /// An earlier entry does not count.
    Struck {
        /// Which.
        entry: Hash,
        /// Why.
        reason: StrikeReason,
    },
    /// The case was closed.
    Closed(Outcome),
}

impl Event {
    /// The look that it carries: of the hours, of a review, or that the treatment was taken up on.
    pub fn look(&self) -> Option<&Look> {
        match self {
            Self::Round(Act::Look(look)) => Some(look),
            Self::Review(review) => Some(&review.look),
            Self::TakenUp { look, .. } => Some(look),
            _ => None,
        }
    }
}

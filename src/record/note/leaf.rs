//! What the patient takes home, as facts: what was done, what to watch for and whom to call then, when
//! to come back, what not to do. Each with how well it is founded, for the clinician who asks why.

use super::Note;
use crate::care::adjunct::Choice;
use crate::care::aftercare::{Purpose, visits};
use crate::care::allergy::Urgency;
use crate::care::rounds::End;
use crate::measure::Moment;
use crate::measure::order;
use crate::protocol::adjunct::{Adjunct, Milligrams};
use crate::protocol::{Basis, Protocol, source};

/// What was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Did {
    /// The enzyme was given because filler blocked an artery, in so many rounds.
    Unblocked(usize),
    /// Filler was taken away as planned.
    Removed,
    /// Only a skin test was done.
    Tested,
    /// Nothing was injected.
    Nothing,
}

/// Whom to call for a sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whom {
    /// The emergency number, at once.
    Emergency,
    /// The clinic, at once.
    Clinic,
}

/// A sign to watch for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Watch {
    /// Any change of sight, or pain in the eye.
    Sight,
    /// Weakness of face or arm, trouble with speech.
    Stroke,
    /// Trouble breathing, a swollen tongue or throat, faintness.
    Breath,
    /// Skin that turns pale, patchy or blue.
    Colour,
    /// Pain that comes back or grows.
    Pain,
    /// Spots with pus, or blisters.
    Blisters,
    /// Skin that turns black, hard, or open.
    Black,
    /// A rash, itching or swelling.
    Rash,
    /// The place of a skin test: late swelling, itching or redness.
    TestPlace,
}

impl Watch {
    /// Whom to call for it. After a severe reaction a rash may be its return.
    pub const fn whom(self, reacted: bool) -> Whom {
        match self {
            Self::Sight | Self::Stroke | Self::Breath => Whom::Emergency,
            Self::Rash if reacted => Whom::Emergency,
            _ => Whom::Clinic,
        }
    }

    /// How well it is founded.
    pub const fn basis(self) -> Basis {
        match self {
            Self::Sight => Basis::Published(source::VISION_2021),
            Self::Breath => Basis::Published(source::ANAPHYLAXIS_AU),
            // Pustules, and skin that turns black and firm, or comes off.
            Self::Blisters | Self::Black => Basis::Published(source::STAGES_2021),
            // The sources tell what these are at the start, none that patients are told to watch
            // for their return.
            Self::Stroke | Self::Rash | Self::Colour | Self::Pain | Self::TestPlace => {
                Basis::CommonPractice
            }
        }
    }
}

/// When to come back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Back {
    /// At a moment that was agreed.
    Appointed(Moment),
    /// Not before this day: new filler.
    NewFiller(Moment),
    /// In person on this day, and daily at first.
    Daily(Moment),
    /// On about this day, to see the result.
    Result(Moment),
    /// The team that took over says when.
    OtherTeam,
    /// Nothing was agreed: ask before leaving.
    Ask,
}

impl Back {
    /// How well it is founded.
    pub const fn basis(self) -> Basis {
        match self {
            Self::Daily(_) => Basis::SecondHand(source::OCCLUSION_2020),
            // The day is the clinic's own value.
            Self::Result(_)
            | Self::NewFiller(_)
            | Self::Appointed(_)
            | Self::OtherTeam
            | Self::Ask => Basis::CommonPractice,
        }
    }
}

/// What not to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Avoid {
    /// Send a photo instead of coming.
    Photo,
    /// Wait and see.
    Waiting,
    /// Change the medicine that was given, beyond what was said: the amount taken here, if measured.
    MoreAspirin(Moment, Option<Milligrams>),
    /// Have the enzyme again without telling of the reaction.
    Untold,
}

impl Avoid {
    /// How well it is founded.
    pub const fn basis(self) -> Basis {
        match self {
            Self::Photo => Basis::SecondHand(source::OCCLUSION_2020),
            Self::Waiting | Self::MoreAspirin(..) | Self::Untold => Basis::CommonPractice,
        }
    }
}

/// The patient's sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// What was done.
    pub did: Did,
    /// Whether there was a severe reaction.
    pub reacted: bool,
    /// Whether a skin test was positive.
    pub positive: bool,
    /// Signs to watch for, the gravest first.
    pub watch: Vec<Watch>,
    /// When to come back.
    pub back: Vec<Back>,
    /// What not to do.
    pub avoid: Vec<Avoid>,
}

impl Leaf {
    /// The sheet of a case under its values.
    pub fn of(note: &Note, protocol: &Protocol) -> Self {
        let did = did(note);
        let reacted = !note.reaction.is_empty();
        let positive = note
            .test
            .as_ref()
            .is_some_and(|test| test.verdict == Some(crate::care::skin_test::Verdict::Positive));
        Self {
            did,
            reacted,
            positive,
            watch: watch(note, did),
            back: back(note, protocol),
            avoid: avoid(note, did, positive),
        }
    }
}

fn did(note: &Note) -> Did {
    match (note.urgency(), note.rounds.is_empty(), &note.test) {
        (Some(Urgency::Urgent), false, _) => Did::Unblocked(note.rounds.len()),
        (_, false, _) => Did::Removed,
        (_, true, Some(_)) => Did::Tested,
        (_, true, None) => Did::Nothing,
    }
}

fn watch(note: &Note, did: Did) -> Vec<Watch> {
    let urgent = note.urgency() == Some(Urgency::Urgent);
    let mut signs = vec![Watch::Breath];
    if urgent {
        signs.extend([Watch::Sight, Watch::Stroke]);
        signs.extend([Watch::Colour, Watch::Pain, Watch::Blisters, Watch::Black]);
    }
    if did != Did::Nothing {
        signs.push(Watch::Rash);
    }
    if did == Did::Tested {
        signs.push(Watch::TestPlace);
    }
    order::sort(&mut signs);
    signs
}

fn back(note: &Note, protocol: &Protocol) -> Vec<Back> {
    let mut back: Vec<Back> = note.appointed.map(Back::Appointed).into_iter().collect();
    let appointed = !back.is_empty();
    if let (Some((urgency, aim)), Some((at, end))) = (note.way, note.end()) {
        if matches!(end, End::HandedOver(_)) {
            back.push(Back::OtherTeam);
        }
        let given = !note.rounds.is_empty() || urgency == Urgency::Urgent;
        let seen_since = note.reviews.iter().any(|(seen, _)| *seen >= at);
        for visit in visits(urgency, aim, end, protocol) {
            let day = at.after(visit.after);
            back.extend(match visit.purpose {
                // Seen again since, or a day agreed: what was usual is not said beside it.
                Purpose::Daily | Purpose::Result if appointed || seen_since || !given => None,
                Purpose::Daily => Some(Back::Daily(day)),
                Purpose::Result => Some(Back::Result(day)),
                Purpose::NewFiller => given.then_some(Back::NewFiller(day)),
            });
        }
    }
    if back.iter().all(|back| matches!(back, Back::NewFiller(_))) {
        back.insert(0, Back::Ask);
    }
    back
}

fn avoid(note: &Note, did: Did, positive: bool) -> Vec<Avoid> {
    let mut avoid = Vec::new();
    if note.urgency() == Some(Urgency::Urgent) {
        avoid.extend([Avoid::Waiting, Avoid::Photo]);
    }
    let aspirin = note.besides.iter().rev().find(|chosen| chosen.adjunct == Adjunct::Aspirin);
    if let Some(chosen) = aspirin
        && let Choice::Given(dose) = chosen.choice
    {
        avoid.push(Avoid::MoreAspirin(chosen.at, dose));
    }
    if (did != Did::Nothing && !note.reaction.is_empty()) || positive {
        avoid.push(Avoid::Untold);
    }
    avoid
}

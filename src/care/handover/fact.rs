//! The facts of a hand-over, one by one.

use crate::care::adjunct::Chosen;
use crate::care::allergy::{Answers, Urgency};
use crate::care::perfusion::Change;
use crate::care::refill::{Colour, Person, Refill};
use crate::care::rounds::{Function, HandOver, Pain, Sign, Temperature};
use crate::care::situation::{self, Filler, RedFlag};
use crate::care::skin_test;
use crate::measure::{Area, Moment, Span, Strength, Units, Volume};
use crate::protocol::zone::Zone;

/// A sign that goes before everything, with the moment it was first noticed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Noticed {
    /// Which.
    pub flag: RedFlag,
    /// When.
    pub at: Moment,
}

/// One thing to be told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fact {
    /// Why it is handed over.
    Reason(HandOver),
    /// A sign that goes before everything, first noticed then.
    Flag(Noticed),
    /// A severe reaction.
    Reaction {
        /// Since when.
        started: Moment,
        /// Whether it still runs.
        active: bool,
        /// Better since the last adrenaline.
        better: bool,
    },
    /// An occlusion, or planned work.
    Way(Urgency),
    /// When the first sign was seen and how long ago that is; or that nobody noted it.
    Onset(Option<(Moment, Span)>),
    /// Where.
    Zones(Vec<Zone>),
    /// How much skin.
    Area(Area),
    /// What was injected before, or that nobody knows.
    Filler(Filler),
    /// Age and sex, as far as known.
    Person(Person),
    /// What was asked about allergy; or that it was not asked.
    Allergy(Option<Answers>),
    /// What the skin test amounts to.
    SkinTest(skin_test::Verdict),
    /// A round of the enzyme.
    Round {
        /// Which, from 1.
        number: usize,
        /// When it began.
        begun: Moment,
        /// When it was over; none while it runs.
        finished: Option<Moment>,
        /// How strong.
        strength: Strength,
        /// How much went in.
        volume: Volume,
        /// Units that went in.
        units: Units,
        /// Batches of the vials that it was made from, as far as they were noted.
        batches: Vec<String>,
    },
    /// All rounds together.
    InAll {
        /// How many.
        rounds: usize,
        /// Units in all.
        units: Units,
        /// Volume in all.
        volume: Volume,
    },
    /// No enzyme was given.
    NoEnzyme,
    /// Adrenaline into muscle.
    Adrenaline {
        /// When.
        at: Moment,
        /// How much of 1 mg/mL.
        volume: Volume,
    },
    /// Something given besides, or why not.
    Besides(Chosen),
    /// What was found at the start.
    Found {
        /// Signs on the skin.
        signs: Vec<situation::Sign>,
        /// Refill, if it was read.
        refill: Option<Refill>,
    },
    /// A look at the skin.
    Look {
        /// When.
        at: Moment,
        /// Refill, if it was timed.
        refill: Option<Refill>,
        /// Colour.
        colour: Colour,
        /// Pain.
        pain: Pain,
        /// Temperature, if it was felt.
        temperature: Option<Temperature>,
        /// Function, if it was tried.
        function: Option<Function>,
    },
    /// What changed from the first look to the last.
    Trend(Change),
    /// Which of the three signs are not back; none if the list is empty.
    Wanting(Vec<Sign>),
    /// Rounds since the last look that was better than the one before.
    Stuck(u32),
    /// Nobody looked at the skin since treatment began.
    NotLooked,
}

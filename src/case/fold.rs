//! The case as it stands: folded from its entries, never stored.

use super::{
    CaseId, Contact, Entry, Event, Journal, Outcome, Overridden, Preparation, Reference, Told,
};
use crate::care::adjunct::Adjuncts;
use crate::care::allergy::{self, Answer, Answers, Urgency};
use crate::care::anaphylaxis::Reaction;
use crate::care::rounds::{Act, Phase, Refusal, Treatment};
use crate::care::situation::{Aim, Findings, RedFlag};
use crate::care::skin_test::{self, Placed, Seen, Verdict};
use crate::care::territory::Photo;
use crate::measure::{Hash, Moment, Units, Volume};
use crate::plane::Grid;
use crate::protocol::Protocol;
use crate::protocol::diluent::Diluent;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// The five steps of the way through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// Which it is.
    Situation,
    /// Who may have the enzyme.
    Allergy,
    /// How strong, how much.
    Strength,
    /// Making it.
    Syringe,
    /// Giving it, hour by hour.
    Rounds,
}

impl Step {
    /// In order.
    pub const ALL: [Self; 5] =
        [Self::Situation, Self::Allergy, Self::Strength, Self::Syringe, Self::Rounds];
}

/// One reading of the skin test, judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TestReading {
    /// When.
    pub at: Moment,
    /// What was seen.
    pub seen: Seen,
    /// What it amounts to.
    pub verdict: Verdict,
}

/// Whether the way to the enzyme is free.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clearance {
    /// Something is still to be done at the allergy step.
    Wanting,
    /// Free.
    Cleared,
    /// The case is closed to treatment.
    Barred,
}

/// A case, folded from its entries.
#[derive(Clone, Debug)]
pub struct Case {
    /// Its name.
    pub id: CaseId,
    /// The clinic's reference.
    pub reference: Option<Reference>,
    /// The values that it runs under.
    pub protocol: Protocol,
    /// When it was opened.
    pub opened: Moment,
    /// When the last entry was made.
    pub last: Moment,
    /// What was found at the start.
    pub findings: Option<Findings>,
    /// The way taken.
    pub way: Option<(Urgency, Option<Aim>)>,
    /// What was asked about allergy.
    pub answers: Option<Answers>,
    /// Whether readiness for anaphylaxis was confirmed.
    pub ready: bool,
    /// The skin test placed last.
    pub test: Option<(Moment, Placed)>,
    /// Its readings.
    pub readings: Vec<TestReading>,
    /// The skin to be flooded, as it was told from time to time.
    pub territories: Vec<Told>,
    /// Photos taken, the newest last.
    pub photos: Vec<(Moment, Photo)>,
    /// Planned work: filler and the dose chosen.
    pub filler: Option<(Volume, Units)>,
    /// What the powder is dissolved in.
    pub diluent: Diluent,
    /// The solution made last.
    pub preparation: Option<Preparation>,
    /// Vials that diluent was pushed into, in all preparations.
    pub vials_opened: u32,
    /// The treatment.
    pub treatment: Treatment,
    /// A severe reaction.
    pub reaction: Reaction,
    /// Signs that go before everything and stand now: noticed, and not gone at a look since.
    pub flags: Vec<RedFlag>,
    /// What is given besides the enzyme.
    pub adjuncts: Adjuncts,
    /// Whom the clinic calls; only in the clinic's own journal.
    pub contacts: Vec<Contact>,
    /// Where the clinician did otherwise than advised.
    pub overrides: Vec<(Moment, Overridden, String)>,
    /// How it was closed.
    pub closed: Option<(Moment, Outcome)>,
    /// Entries that do not count.
    pub struck: BTreeSet<Hash>,
    /// Entries that did not fit when they came; kept and shown.
    pub refused: Vec<(Hash, Refusal)>,
    /// A solution that was struck out, until the entry that says so: what was drawn in between was
    /// drawn for it and not for the one before.
    struck_solution: Option<Hash>,
    /// When a round was said to be over, where that was struck out and nothing said since.
    struck_finish: Option<Moment>,
    /// The grid of the round to come, laid when it is first asked for.
    pub(super) next_grid: OnceLock<Option<Grid>>,
}

impl Case {
    /// Folds a journal.
    pub fn of(journal: &Journal) -> Self {
        let struck = journal
            .entries()
            .iter()
            .filter_map(|entry| match entry.event() {
                Event::Struck { entry, .. } => Some(*entry),
                _ => None,
            })
            .collect();
        let mut case = Self::empty(journal.case());
        case.struck = struck;
        for entry in journal.entries() {
            case.apply(entry);
        }
        case
    }

    fn empty(id: CaseId) -> Self {
        Self {
            id,
            reference: None,
            protocol: Protocol::default(),
            opened: Moment::default(),
            last: Moment::default(),
            findings: None,
            way: None,
            answers: None,
            ready: false,
            test: None,
            readings: Vec::new(),
            territories: Vec::new(),
            photos: Vec::new(),
            next_grid: OnceLock::new(),
            filler: None,
            diluent: Diluent::default(),
            preparation: None,
            vials_opened: 0,
            treatment: Treatment::new(Urgency::Urgent),
            reaction: Reaction::default(),
            flags: Vec::new(),
            adjuncts: Adjuncts::default(),
            contacts: Vec::new(),
            overrides: Vec::new(),
            closed: None,
            struck: BTreeSet::new(),
            refused: Vec::new(),
            struck_solution: None,
            struck_finish: None,
        }
    }

    fn apply(&mut self, entry: &Entry) {
        let at = entry.at();
        self.last = at;
        if self.struck.contains(&entry.id()) {
            match entry.event() {
                Event::Preparation(_) => self.struck_solution = Some(entry.id()),
                Event::Round(Act::Finish) => self.struck_finish = Some(at),
                Event::Round(Act::Add { spot }) => {
                    if let Err(refusal) = self.treatment.added_by_mistake(*spot) {
                        self.refused.push((entry.id(), refusal));
                    }
                }
                _ => {}
            }
            return;
        }
        match entry.event() {
            Event::Opened { reference, protocol } => {
                self.reference = Some(reference.clone());
                self.protocol = (**protocol).clone();
                self.opened = at;
            }
            Event::Values(protocol) => self.protocol = protocol.accepted(),
            Event::Contacts(contacts) => self.contacts.clone_from(contacts),
            Event::Renamed(reference) => self.reference = Some(reference.clone()),
            Event::Found(findings) => {
                self.flags.clone_from(&findings.red_flags);
                self.findings = Some((**findings).clone());
            }
            Event::Noticed(flag) => {
                if !self.flags.contains(flag) {
                    self.flags.push(*flag);
                    self.flags.sort_unstable();
                }
            }
            Event::Adjunct(act) => self.adjuncts.apply(at, act),
            Event::Way { urgency, aim } => {
                self.way = Some((*urgency, *aim));
                self.treatment.urgency = *urgency;
            }
            Event::Asked(answers) => self.answers = Some(answers.clone()),
            Event::Ready => self.ready = true,
            Event::SkinTest(act) => self.tested(at, act),
            Event::Territory(territory) => self.territories.push(Told {
                at,
                territory: territory.clone(),
                rounds_begun: self.treatment.rounds().len(),
            }),
            Event::Photo(photo) => self.photos.push((at, *photo)),
            Event::Lattice(lattice) => self.protocol.lattice = *lattice,
            Event::Filler { volume, dose } => self.filler = Some((*volume, *dose)),
            Event::Set(id, quantity) => {
                // A value out of bounds was never recorded by this app; an altered record keeps
                // the value in force.
                if let Ok(changed) = self.protocol.with(*id, *quantity) {
                    self.protocol = changed;
                }
            }
            Event::Diluent(diluent) => self.diluent = *diluent,
            Event::Preparation(plan) => {
                self.struck_solution = None;
                self.preparation = Some(Preparation {
                    plan: (**plan).clone(),
                    at,
                    rounds_begun: self.treatment.rounds().len(),
                    in_a_round: self.injecting(),
                    injected_before: self.treatment.volume(),
                    done: BTreeSet::new(),
                    checked: BTreeMap::new(),
                    vials: BTreeMap::new(),
                });
            }
            Event::Vial(vial) => self.preparing(|made| {
                made.vials.insert(vial.number, vial.clone());
            }),
            Event::Drew(movement) => self.drew(*movement),
            Event::Checked { movement, by } => self.preparing(|made| {
                made.checked.insert(*movement, by.clone());
            }),
            Event::Round(act) => self.went_on(entry, act),
            Event::Anaphylaxis(act) => self.reaction.apply(at, act),
            Event::Override { what, reason } => self.overrides.push((at, *what, reason.clone())),
            Event::Closed(outcome) => self.closed = Some((at, *outcome)),
            Event::ClockJumped(millis) => {
                self.treatment.clock_jumped(*millis);
                self.reaction.clock_jumped(*millis);
            }
            Event::Struck { entry, .. } => {
                if self.struck_solution == Some(*entry) {
                    self.struck_solution = None;
                }
            }
            Event::Note(_) => {}
        }
    }

    fn preparing(&mut self, change: impl FnOnce(&mut Preparation)) {
        if self.struck_solution.is_some() {
            return;
        }
        if let Some(preparation) = &mut self.preparation {
            change(preparation);
        }
    }

    fn drew(&mut self, movement: u32) {
        let mut opens = false;
        self.preparing(|made| opens = made.draw(movement));
        self.vials_opened = self.vials_opened.saturating_add(u32::from(opens));
    }

    fn tested(&mut self, at: Moment, act: &skin_test::Act) {
        match act {
            skin_test::Act::Place(placed) => {
                self.test = Some((at, *placed));
                self.readings.clear();
            }
            skin_test::Act::Read(seen) => {
                if let Some((since, placed)) = &self.test {
                    let verdict = skin_test::judge(placed, seen, at.since(*since), &self.protocol);
                    self.readings.push(TestReading { at, seen: *seen, verdict });
                }
            }
        }
    }

    fn went_on(&mut self, entry: &Entry, act: &Act) {
        // That the round was over was struck out later, yet another was begun: then it was over, and
        // the doses of the one after must not get lost.
        let over = self
            .struck_finish
            .filter(|_| matches!(act, Act::Begin(_) | Act::BeginOn(..)) && self.injecting());
        if let Some(over) = over {
            // It fits: a round is running.
            let _ = self.treatment.apply(over, &Act::Finish);
        }
        if matches!(act, Act::Begin(_) | Act::BeginOn(..) | Act::Finish) {
            self.struck_finish = None;
        }
        match (self.treatment.apply(entry.at(), act), act) {
            (Ok(()), Act::Look(look)) => self.flags.clone_from(&look.red_flags),
            (Ok(()), _) => {}
            (Err(refusal), _) => self.refused.push((entry.id(), refusal)),
        }
    }

    /// How urgent; `None` before the way was taken.
    pub fn urgency(&self) -> Option<Urgency> {
        self.way.map(|(urgency, _)| urgency)
    }

    /// Whether the clinician did otherwise than advised about this.
    pub fn overrode(&self, what: Overridden) -> bool {
        self.overrides.iter().any(|(_, overridden, _)| *overridden == what)
    }

    /// What the skin test amounts to so far.
    pub fn test_verdict(&self) -> Option<Verdict> {
        let verdicts: Vec<Verdict> = self.readings.iter().map(|reading| reading.verdict).collect();
        skin_test::overall(&verdicts)
    }

    /// What is known of allergy: the answers, and a positive skin test as the reaction that it is.
    pub fn known(&self) -> Option<Answers> {
        let mut answers = self.answers.clone()?;
        if self.test_verdict() == Some(Verdict::Positive) {
            answers.previous_reaction = Answer::Yes;
        }
        Some(answers)
    }

    /// Whether the way to the enzyme is free.
    ///
    /// A reaction known before, a positive skin test among them, bars planned work whatever was
    /// overridden, and has to be weighed in urgent work. The rest is free once asked, tested, or
    /// overridden with a reason.
    pub fn clearance(&self) -> Clearance {
        let (Some((urgency, _)), Some(answers)) = (self.way, self.known()) else {
            return Clearance::Wanting;
        };
        let free = |free: bool| if free { Clearance::Cleared } else { Clearance::Wanting };
        match allergy::screen(&answers, urgency).way {
            allergy::Way::GoOn => free(self.ready_or_known()),
            allergy::Way::Weigh => {
                free(self.ready_or_known() && self.overrode(Overridden::Allergy))
            }
            allergy::Way::Closed => Clearance::Barred,
            allergy::Way::Postpone | allergy::Way::Allergist => {
                free(self.overrode(Overridden::Allergy) && self.tested_negative())
            }
            allergy::Way::Test { .. } => free(self.tested_negative()),
        }
    }

    /// Ready for a reaction, or known not to be and going on for a reason: skin may be dying.
    fn ready_or_known(&self) -> bool {
        self.ready || self.overrode(Overridden::Readiness)
    }

    fn tested_negative(&self) -> bool {
        self.ready
            && (self.test_verdict() == Some(Verdict::Negative)
                || self.overrode(Overridden::SkinTest))
    }

    /// The step that the case stands at.
    pub fn step(&self) -> Step {
        if self.way.is_none() {
            Step::Situation
        } else if self.clearance() != Clearance::Cleared && self.treatment.rounds().is_empty() {
            Step::Allergy
        } else {
            match &self.preparation {
                None => Step::Strength,
                Some(made) if made.next().is_some() && !self.begun_with(made) => Step::Syringe,
                Some(_) => Step::Rounds,
            }
        }
    }

    /// Whether a round was begun with a preparation. The clock of that round then goes before any
    /// syringe of it that is still to be drawn.
    fn begun_with(&self, made: &Preparation) -> bool {
        self.treatment.rounds().len() > made.rounds_begun
    }

    /// Whether a round is running.
    pub fn injecting(&self) -> bool {
        self.treatment.phase(self.last, &self.protocol) == Phase::Injecting
    }

    /// Whether anything more is to be done.
    pub fn open(&self) -> bool {
        self.closed.is_none()
    }
}

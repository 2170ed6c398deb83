//! The case as it stands: folded from its entries, never stored.

use super::stop::Warned;
use super::{
    CaseId, Contact, Entry, Event, Journal, Outcome, Overridden, Preparation, Reference, Removal,
    TestReading, Told,
};
use crate::care::adjunct::Adjuncts;
use crate::care::aftercare::Review;
use crate::care::allergy::{Answers, Urgency};
use crate::care::anaphylaxis::{self, Reaction};
use crate::care::rounds::{Act, Look, Phase, Refusal, Treatment};
use crate::care::situation::{Aim, Findings, RedFlag};
use crate::care::skin_test::Placed;
use crate::care::territory::Photo;
use crate::kit::Vial;
use crate::measure::order;
use crate::measure::{Hash, Moment, Units, Volume};
use crate::plane::Grid;
use crate::protocol::Protocol;
use crate::protocol::diluent::Diluent;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// The solution that was struck out last, until another is made or the entry that strikes it out:
/// what was taken and drawn in between was for it, and not for the one before.
#[derive(Clone, Copy, Debug, Default)]
struct Unmade(Option<Hash>);

impl Unmade {
    /// Goes on to the next entry; whether it was for a solution that was struck out. A vial that names
    /// its solution goes with that one, whatever was made meanwhile.
    fn takes(&mut self, entry: &Entry, all: &BTreeSet<Hash>) -> bool {
        let struck = all.contains(&entry.id());
        match entry.event() {
            Event::Preparation(_) => self.0 = struck.then(|| entry.id()),
            Event::Struck { entry, .. } if !struck && self.0 == Some(*entry) => self.0 = None,
            Event::Vial(Vial { solution: Some(solution), .. }) => return all.contains(solution),
            Event::Vial(_) | Event::Drew(_) | Event::Checked { .. } => return self.0.is_some(),
            _ => {}
        }
        false
    }
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
    /// Photos deleted since, by the digest of their bytes.
    pub removed: BTreeMap<Hash, (Moment, Removal)>,
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
    /// What warned last, and what was decided all the same.
    pub(super) warned: Warned,
    /// What is given besides the enzyme.
    pub adjuncts: Adjuncts,
    /// Whom the clinic calls; only in the clinic's own journal.
    pub contacts: Vec<Contact>,
    /// When the patient was seen again, and how it was.
    pub reviews: Vec<(Moment, Review)>,
    /// When the patient is to be seen again, as agreed last.
    pub appointed: Option<Moment>,
    /// Where the clinician did otherwise than advised.
    pub overrides: Vec<(Moment, Overridden, String)>,
    /// How it was closed.
    pub closed: Option<(Moment, Outcome)>,
    /// Entries that do not count.
    pub struck: BTreeSet<Hash>,
    /// Entries that did not fit when they came; kept and shown.
    pub refused: Vec<(Hash, Refusal)>,
    /// Of the signs that stand, those that only what was found at the start says.
    only_found: Vec<RedFlag>,
    /// A solution that was struck out.
    unmade: Unmade,
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
            removed: BTreeMap::new(),
            next_grid: OnceLock::new(),
            filler: None,
            diluent: Diluent::default(),
            preparation: None,
            vials_opened: 0,
            treatment: Treatment::new(Urgency::Urgent),
            reaction: Reaction::default(),
            flags: Vec::new(),
            warned: Warned::default(),
            adjuncts: Adjuncts::default(),
            contacts: Vec::new(),
            reviews: Vec::new(),
            appointed: None,
            overrides: Vec::new(),
            closed: None,
            struck: BTreeSet::new(),
            refused: Vec::new(),
            only_found: Vec::new(),
            unmade: Unmade::default(),
            struck_finish: None,
        }
    }

    fn apply(&mut self, entry: &Entry) {
        let at = entry.at();
        self.last = at;
        let struck = self.struck.contains(&entry.id());
        let unmade = self.unmade.takes(entry, &self.struck);
        if struck {
            match entry.event() {
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
        if unmade {
            return;
        }
        self.warned.take(entry);
        match entry.event() {
            Event::Opened { reference, protocol } => {
                self.reference = Some(reference.clone());
                self.protocol = (**protocol).clone();
                self.opened = at;
            }
            Event::Values(protocol) => self.protocol = protocol.accepted(),
            Event::Contacts(contacts) => self.contacts.clone_from(contacts),
            Event::Renamed(reference) => self.reference = Some(reference.clone()),
            Event::Found(findings) => self.found(findings),
            Event::Noticed(flag) => self.notice(*flag),
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
            Event::PhotoRemoved { photo, why } => {
                self.removed.insert(*photo, (at, *why));
            }
            Event::Lattice(lattice) => self.protocol.lattice = *lattice,
            Event::Filler { volume, dose } => self.filler = Some((*volume, *dose)),
            Event::Set(id, quantity) => {
                // A value out of bounds was never recorded by this app; an altered record keeps
                // the value in force.
                if let Ok(changed) = self.protocol.with(*id, *quantity) {
                    self.protocol = changed;
                }
            }
            Event::Region(region) => self.protocol.region = *region,
            Event::Diluent(diluent) => self.diluent = *diluent,
            Event::Preparation(plan) => {
                self.preparation = Some(Preparation {
                    id: entry.id(),
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
            Event::Vial(vial) => self.preparing(|made| made.take(vial)),
            Event::Drew(movement) => self.drew(*movement),
            Event::Checked { movement, by } => self.preparing(|made| {
                made.checked.insert(*movement, by.clone());
            }),
            Event::Round(act) => self.went_on(entry, act),
            Event::Anaphylaxis(act) => {
                self.reaction.apply(at, act);
                if *act == anaphylaxis::Act::Over {
                    // What it was the sign of is over.
                    self.flags.retain(|flag| *flag != RedFlag::Airway);
                }
            }
            Event::Review(review) => {
                self.reviews.push((at, (**review).clone()));
                self.appointed = None;
                self.reviewed(review);
            }
            Event::Appointed(moment) => self.appointed = Some(*moment),
            Event::TakenUp { look, .. } => self.taken_up(at, look),
            Event::Override { what, reason } => self.overrides.push((at, *what, reason.clone())),
            Event::Closed(outcome) => self.closed = Some((at, *outcome)),
            Event::ClockJumped(millis) => {
                self.treatment.clock_jumped(*millis);
                self.reaction.clock_jumped(*millis);
            }
            Event::Struck { .. } | Event::Note(_) | Event::Kit(_) => {}
        }
    }

    /// What is found anew takes away what was only found before. A sign that was noticed otherwise
    /// stands until a look is without it, or until it is struck out.
    fn found(&mut self, findings: &Findings) {
        let before = std::mem::take(&mut self.only_found);
        self.flags.retain(|flag| !before.contains(flag));
        for flag in &findings.red_flags {
            if !self.flags.contains(flag) {
                self.only_found.push(*flag);
                self.stands(*flag);
            }
        }
        self.findings = Some(findings.clone());
    }

    /// A look says which signs stand, and which do not any more.
    pub(super) fn looked(&mut self, look: &Look) {
        self.only_found.clear();
        self.flags.clone_from(&look.red_flags);
    }

    /// A sign was noticed, at whatever moment.
    pub(super) fn notice(&mut self, flag: RedFlag) {
        self.only_found.retain(|found| *found != flag);
        self.stands(flag);
    }

    fn stands(&mut self, flag: RedFlag) {
        if !self.flags.contains(&flag) {
            self.flags.push(flag);
            order::sort(&mut self.flags);
        }
    }

    fn preparing(&mut self, change: impl FnOnce(&mut Preparation)) {
        if let Some(preparation) = &mut self.preparation {
            change(preparation);
        }
    }

    fn drew(&mut self, movement: u32) {
        let mut opens = false;
        self.preparing(|made| opens = made.draw(movement));
        self.vials_opened = self.vials_opened.saturating_add(u32::from(opens));
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
            (Ok(()), Act::Look(look)) => {
                self.looked(look);
            }
            (Ok(()), _) => {}
            (Err(refusal), _) => self.refused.push((entry.id(), refusal)),
        }
    }

    /// The entries that count, in order: neither struck out, nor refused, nor of a solution that was
    /// struck out. The journal is the one that the case was folded from.
    pub fn standing<'a>(&'a self, journal: &'a Journal) -> impl Iterator<Item = &'a Entry> {
        let mut unmade = Unmade::default();
        journal.entries().iter().filter(move |entry| {
            let struck = self.struck.contains(&entry.id());
            let refused = self.refused.iter().any(|(refused, _)| *refused == entry.id());
            !unmade.takes(entry, &self.struck) && !struck && !refused
        })
    }

    /// How urgent; `None` before the way was taken.
    pub fn urgency(&self) -> Option<Urgency> {
        self.way.map(|(urgency, _)| urgency)
    }

    /// Whether the clinician did otherwise than advised about this.
    pub fn overrode(&self, what: Overridden) -> bool {
        self.overrides.iter().any(|(_, overridden, _)| *overridden == what)
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

//! What was injected, where and how active, as the journal has it.

use super::scenario::Brief;
use crate::care::rounds::Act;
use crate::case::{Case, Entry, Event, Journal};
use crate::kit::{Dating, Vial};
use crate::measure::{Area, Date, Moment, Units, Volume};
use crate::protocol::PerMille;
use crate::protocol::simulation::{EXPIRED_ACTIVITY, REACH};
use crate::protocol::zone::Zone;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// All of a part.
pub(super) const WHOLE: u64 = 1_000;

/// The entries that have happened by `now`.
pub(super) fn until(journal: &Journal, now: Moment) -> Cow<'_, Journal> {
    let happened = |entry: &&Entry| entry.at() <= now;
    if journal.entries().iter().all(|entry| happened(&entry)) {
        return Cow::Borrowed(journal);
    }
    let entries = journal.entries().iter().filter(happened).cloned().collect();
    Cow::Owned(Journal::from_entries(journal.case(), entries).0)
}

/// The entries that count: neither struck out, nor refused, nor of a solution struck out.
pub(super) fn standing<'a>(
    journal: &'a Journal,
    case: &'a Case,
) -> impl Iterator<Item = &'a Entry> {
    case.standing(journal)
}

/// One injection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Injection {
    /// When.
    pub at: Moment,
    /// Units as labelled.
    pub units: Units,
    /// Units that act.
    pub active: Units,
    /// Skin that it reaches.
    pub reaches: Area,
}

/// What was laid in one round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Laid {
    /// When the round began.
    pub begun: Moment,
    /// The injections, as recorded.
    pub injections: Vec<Injection>,
    /// How much of the true zones was named.
    pub reach: u64,
    /// How much of what was named is true.
    pub hit: u64,
    /// The surface told, of it the part in the true zones.
    pub told: Area,
    /// Active units in one mL, the least in the round.
    pub strength: Units,
}

impl Laid {
    /// Units laid in the true zones on each cm², of the skin told or of the skin without blood,
    /// whichever is larger.
    pub fn per_cm2(&self, area: Area, units: Units) -> Units {
        let on_it = wide(units.raw()) * wide(self.hit) * wide(Area::PER);
        Units::milli(narrow(on_it / wide(WHOLE) / wide(self.over(area))))
    }

    /// How much of `area` is reached by injections that reach `laid` in all, in thousandths.
    pub fn covered(&self, area: Area, laid: Area) -> u64 {
        let reached = narrow(wide(laid.raw()) * wide(self.hit) / wide(self.over(area)));
        reached.min(self.reach)
    }

    fn over(&self, area: Area) -> u64 {
        area.raw().max(self.told.raw()).max(1)
    }
}

pub(super) fn wide(number: u64) -> u128 {
    u128::from(number)
}

pub(super) fn narrow(number: u128) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}

/// What was laid in each round, first to last.
pub(super) fn laid(brief: &Brief, journal: &Journal, case: &Case) -> Vec<Laid> {
    let rounds = case.treatment.rounds();
    let mut all: Vec<Laid> = (0..).zip(rounds).map(|(n, _)| empty(brief, case, n)).collect();
    let mut hand = Hand::new(brief);
    let mut begun = 0_usize;
    for entry in standing(journal, case) {
        match entry.event() {
            Event::Preparation(plan) => hand.prepare(plan.vials_used()),
            Event::Vial(vial) if vial.solution.is_none() => hand.take(vial, today(entry)),
            Event::Round(Act::Begin(_) | Act::BeginOn(..)) => begun += 1,
            Event::Round(Act::Inject { volume, .. }) => {
                let index = begun.saturating_sub(1);
                let (Some(laid), Some(round)) = (all.get_mut(index), rounds.get(index)) else {
                    continue;
                };
                let activity = hand.activity();
                let units = round.plan.strength.units_in(*volume);
                let strength = part(round.plan.strength.in_one_ml(), activity);
                laid.strength = laid.strength.min(strength);
                laid.injections.push(Injection {
                    at: entry.at(),
                    units,
                    active: part(units, activity),
                    reaches: cell(case, index).min(spread(*volume)),
                });
            }
            _ => {}
        }
    }
    all
}

/// The local day of an entry.
fn today(entry: &Entry) -> Date {
    Date::of(entry.at(), entry.body().zone)
}

fn part(units: Units, activity: PerMille) -> Units {
    Units::milli(narrow(wide(units.raw()) * wide(activity.0.into()) / wide(WHOLE)))
}

fn empty(brief: &Brief, case: &Case, round: usize) -> Laid {
    let territory = case.territory_of(round);
    let named = territory.map_or(&[][..], |skin| skin.zones());
    let surface = |zones: &[Zone]| -> u64 { zones.iter().map(|z| z.usual().0.raw()).sum() };
    let both: Vec<Zone> = named.iter().filter(|z| brief.zones.contains(z)).copied().collect();
    let of = |whole: u64| (surface(&both) * WHOLE).checked_div(whole).unwrap_or(WHOLE);
    // Without a zone named nothing says that it was the wrong place.
    let (reach, hit) = if named.is_empty() {
        (WHOLE, WHOLE)
    } else {
        (of(surface(brief.zones)), of(surface(named)))
    };
    let told = territory.map_or(0, |skin| skin.area().raw());
    let begun = case.treatment.rounds()[round].begun;
    Laid {
        begun,
        injections: Vec::new(),
        reach,
        hit,
        told: Area::mm2(narrow(wide(told) * wide(hit) / wide(WHOLE))),
        strength: Units::milli(u64::MAX),
    }
}

/// The skin that each point of a round stands for.
fn cell(case: &Case, round: usize) -> Area {
    let plan = case.treatment.rounds()[round].plan;
    let spacing = case.protocol.spacing;
    case.territory_of(round).map_or(spacing.by(spacing), |skin| {
        Area::mm2(skin.area().raw().div_ceil(u64::from(plan.points).max(1)))
    })
}

/// The skin that a volume reaches at most.
fn spread(volume: Volume) -> Area {
    let (of, area) = REACH;
    Area::mm2(narrow(wide(volume.raw()) * wide(area.raw()) / wide(of.raw().max(1))))
}

/// The vials that the solution in the hand was made of.
struct Hand<'a> {
    brief: &'a Brief,
    /// Vials out of date that are still in the bag.
    expired_left: u32,
    /// Vials of the solution.
    used: u32,
    /// Those looked at, by number: whether out of date.
    known: BTreeMap<u32, bool>,
    /// Those not looked at and out of date.
    unseen: u32,
}

impl<'a> Hand<'a> {
    fn new(brief: &'a Brief) -> Self {
        let expired = brief.bag.vials.iter().filter(|some| some.expired()).map(|some| some.count);
        let mut hand =
            Self { brief, expired_left: expired.sum(), used: 1, known: BTreeMap::new(), unseen: 0 };
        hand.unseen = hand.expired_left.min(hand.used);
        hand
    }

    /// A solution is made of so many vials. One that nobody looks at is the one on top of the bag.
    fn prepare(&mut self, vials: u32) {
        self.expired_left = self.expired_left.saturating_sub(self.expired());
        self.used = vials.max(1);
        self.known.clear();
        self.unseen = self.expired_left.min(self.used);
    }

    /// A vial of this solution is looked at. One of an earlier solution, noted afterwards, comes too
    /// late for what was injected of it.
    fn take(&mut self, vial: &Vial, today: Date) {
        let batch = self.brief.bag.vials.iter().find(|some| some.batch == vial.batch.trim());
        let expired = match (vial.dating(today), batch) {
            (Dating::Expired(_), _) => true,
            (Dating::InDate(_), _) => false,
            (Dating::Unknown, Some(some)) => some.expired(),
            // Neither its expiry nor its batch was looked at.
            (Dating::Unknown, None) => self.expired_left > 0,
        };
        self.known.insert(vial.number, expired);
        let seen = u32::try_from(self.known.len()).unwrap_or(u32::MAX);
        let left = self.expired_left.saturating_sub(self.known_expired());
        self.unseen = left.min(self.used.saturating_sub(seen));
    }

    fn known_expired(&self) -> u32 {
        u32::try_from(self.known.values().filter(|expired| **expired).count()).unwrap_or(u32::MAX)
    }

    fn expired(&self) -> u32 {
        self.known_expired().saturating_add(self.unseen)
    }

    /// The mean activity of the vials.
    fn activity(&self) -> PerMille {
        let seen = u32::try_from(self.known.len()).unwrap_or(u32::MAX);
        let all = u64::from(self.used.max(seen).max(1));
        let expired = u64::from(self.expired()).min(all);
        let sum = expired * u64::from(EXPIRED_ACTIVITY.0) + (all - expired) * WHOLE;
        PerMille(u32::try_from(sum / all).unwrap_or_default())
    }
}

/// Vials out of date in the solutions that something was injected from.
pub(super) fn expired_used(brief: &Brief, journal: &Journal, case: &Case) -> u32 {
    let mut hand = Hand::new(brief);
    // Of this solution, counted once.
    let (mut counted, mut sum) = (0, 0_u32);
    for entry in standing(journal, case) {
        match entry.event() {
            Event::Preparation(plan) => {
                hand.prepare(plan.vials_used());
                counted = 0;
            }
            Event::Vial(vial) if vial.solution.is_none() => hand.take(vial, today(entry)),
            Event::Round(Act::Inject { .. }) => {
                sum = sum.saturating_add(hand.expired().saturating_sub(counted));
                counted = counted.max(hand.expired());
            }
            _ => {}
        }
    }
    sum
}

//! How the blockage opens, or does not, and what the skin suffers meanwhile.
//!
//! The time is walked through minute by minute from the start. In each minute:
//!
//! * **Effect of a round.** Its injections act with a half-time, so that little shows straight after
//!   a round. They count by the skin they reach and by the active units they lay on each cm²,
//!   whichever falls short more, and less where the solution is weak. A round with no more effect
//!   than [`EFFECT_FLOOR`] opens nothing; from there to [`EFFECT_FULL`] it counts in proportion.
//! * **Blockage.** It starts at the patient's own and falls with each round's effect, so many full
//!   rounds opening it. It never rises by itself: what the enzyme dissolved stays dissolved.
//! * **Harm.** Blocked time adds up as time of complete ischaemia, until the skin is lost.
//! * **Outline.** It grows with the harm since the start and shrinks with the blockage. A round is
//!   measured against the skin that was without blood when it was begun.

use super::given::{Laid, WHOLE, narrow, wide};
use crate::measure::{Area, Moment, Span, Units};
use crate::protocol::simulation::{
    BACK, EFFECT_FLOOR, EFFECT_FULL, EFFECT_HALF, FULL_STRENGTH, GROWTH, GROWTH_EACH, GROWTH_MOST,
    LONGEST, LOST_AFTER, NEED, Patient,
};

/// One reckoning to the next.
const STEP: Span = Span::minutes(1);

/// What is known of a round on the way through the time.
#[derive(Clone, Copy, Debug, Default)]
struct Seen {
    /// The skin without blood when it was begun.
    area: Option<Area>,
    /// What it opens, once all of its effect has come.
    gained: Option<u64>,
}

/// Where the skin stands at a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Course {
    /// How much of the flow is blocked, in thousandths.
    pub blocked: u64,
    /// What the skin has suffered, as time of complete ischaemia.
    pub harm: Span,
    /// Skin without blood.
    pub area: Area,
    /// The skin without blood when each round was begun.
    pub at_round: Vec<Area>,
    /// How long after the start it first had its blood back.
    pub back: Option<Span>,
}

impl Course {
    /// The course up to `now`.
    pub fn of(patient: &Patient, start: Moment, laid: &[Laid], now: Moment) -> Self {
        let mut course = Self {
            blocked: u64::from(patient.blocked.0),
            harm: patient.harm,
            area: patient.area,
            at_round: Vec::new(),
            back: None,
        };
        let mut rounds: Vec<Seen> = vec![Seen::default(); laid.len()];
        let until = now.since(start).as_millis().min(LONGEST.as_millis());
        let mut passed = 0;
        loop {
            let at = start.after(Span::millis(passed));
            course.reckon(patient, laid, &mut rounds, at);
            if passed >= until {
                break;
            }
            let step = STEP.as_millis().min(until - passed);
            let suffers = course.suffers(patient);
            course.harm = Span::millis(course.harm.as_millis() + step * suffers / WHOLE);
            passed += step;
            if course.blocked <= back(patient) && course.back.is_none() {
                course.back = Some(Span::millis(passed));
            }
        }
        course.at_round = rounds.iter().map(|round| round.area.unwrap_or(course.area)).collect();
        course
    }

    /// Whether the skin has as much of its blood back as it can have.
    pub fn is_back(&self, patient: &Patient) -> bool {
        self.blocked <= back(patient)
    }

    /// Whether skin is lost.
    pub fn lost(&self) -> bool {
        self.harm >= LOST_AFTER
    }

    /// The blockage that harms: what lasts is got used to, and what is as good as open harms nobody.
    fn suffers(&self, patient: &Patient) -> u64 {
        if self.is_back(patient) { 0 } else { self.blocked - u64::from(patient.lasting.0) }
    }

    fn reckon(&mut self, patient: &Patient, laid: &[Laid], rounds: &mut [Seen], at: Moment) {
        self.area = self.without_blood(patient);
        let mut opened = 0;
        for (round, seen) in laid.iter().zip(rounds.iter_mut()) {
            if round.begun > at {
                continue;
            }
            let area = *seen.area.get_or_insert(self.area);
            opened += seen.gained.unwrap_or_else(|| {
                let gained = gain(effect(round, area, at));
                if round.injections.iter().all(|i| i.at <= at && come(at.since(i.at)) == WHOLE) {
                    seen.gained = Some(gained);
                }
                gained
            });
        }
        let mends = u64::from(patient.blocked.0.saturating_sub(patient.lasting.0));
        let full = WHOLE * u64::from(patient.rounds).max(1);
        let opened = (opened * mends / full).min(mends);
        // A clock set back takes no effect back.
        self.blocked = self.blocked.min(u64::from(patient.blocked.0).saturating_sub(opened));
        self.area = self.without_blood(patient);
    }

    fn without_blood(&self, patient: &Patient) -> Area {
        let since = self.harm.saturating_sub(patient.harm).as_millis();
        let grown = since * u64::from(GROWTH.0) / GROWTH_EACH.as_millis();
        let size = WHOLE + grown.min(u64::from(GROWTH_MOST.0));
        let whole = wide(patient.area.raw()) * wide(size) / wide(WHOLE);
        if self.blocked <= u64::from(BACK.0) {
            return Area::ZERO;
        }
        let part = whole * wide(self.blocked) / wide(u64::from(patient.blocked.0).max(1));
        Area::mm2(narrow(part))
    }
}

/// The blockage up to which as much of the blood is back as can be.
fn back(patient: &Patient) -> u64 {
    u64::from(patient.lasting.0) + u64::from(BACK.0)
}

/// The part of an effect that has come after a time, in thousandths.
fn come(since: Span) -> u64 {
    let half = EFFECT_HALF.as_millis();
    let (halves, rest) = (since.as_millis() / half, since.as_millis() % half);
    let left = WHOLE * (2 * half - rest) / (2 * half);
    WHOLE - u32::try_from(halves).ok().and_then(|n| left.checked_shr(n)).unwrap_or(0)
}

/// The effect of a round on an area, as far as it has come, in thousandths of a full one.
fn effect(round: &Laid, area: Area, at: Moment) -> u64 {
    let (mut reaches, mut units) = (0_u128, 0_u128);
    for injection in round.injections.iter().filter(|injection| injection.at <= at) {
        let come = wide(come(at.since(injection.at)));
        reaches += wide(injection.reaches.raw()) * come;
        units += wide(injection.active.raw()) * come;
    }
    let part = |sum: u128| narrow(sum / wide(WHOLE));
    full(round, area, Area::mm2(part(reaches)), Units::milli(part(units)))
}

fn full(round: &Laid, area: Area, reaches: Area, units: Units) -> u64 {
    let of =
        |part: u64, whole: u64| narrow(wide(part) * wide(WHOLE) / wide(whole.max(1))).min(WHOLE);
    let dense = of(round.per_cm2(area, units).raw(), NEED.raw());
    let strong = of(round.strength.raw(), FULL_STRENGTH.in_one_ml().raw());
    round.covered(area, reaches).min(dense) * strong / WHOLE
}

/// What an effect opens, in thousandths of what a full one does.
fn gain(effect: u64) -> u64 {
    let (floor, full) = (u64::from(EFFECT_FLOOR.0), u64::from(EFFECT_FULL.0));
    (effect.saturating_sub(floor) * WHOLE / (full - floor)).min(WHOLE)
}

//! The figures of the simulated patient. Invented for teaching: no clinical evidence stands behind any
//! of them ([`BASIS`]), and no case is ever treated by one.
//!
//! Where a source gives a direction (hours of ischaemia, not days; little to see straight after a
//! round), the figure goes that way and says so. It is still invented: sources measured animals, whole
//! flaps and fingertips, and no such patient as this.

use super::value::{Basis, PerMille};
use crate::measure::{Area, Mass, Span, Strength, Units, Volume};

/// How well each figure here is founded.
pub const BASIS: Basis = Basis::Invented;

/// The patient of one scenario, in figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Patient {
    /// Age in whole years.
    pub years: u32,
    /// Weight.
    pub weight: Mass,
    /// Skin without blood when the rehearsal starts.
    pub area: Area,
    /// How long before the start the first sign was seen.
    pub onset: Span,
    /// What the skin has suffered by the start, as time of complete ischaemia.
    pub harm: Span,
    /// How much of the flow is blocked at the start.
    pub blocked: PerMille,
    /// How much of it stays blocked whatever is done.
    pub lasting: PerMille,
    /// Rounds of full effect that open it.
    pub rounds: u32,
    /// Refill of healthy skin in this patient.
    pub refill: Span,
    /// Pain at complete blockage, from 0 to 10.
    pub pain: u8,
    /// Doses of adrenaline that end a reaction.
    pub doses: u32,
}

const COMMON: Patient = Patient {
    years: 34,
    weight: Mass::kg(62),
    area: Area::mm2(900),
    onset: Span::minutes(25),
    harm: Span::minutes(25),
    blocked: PerMille(1_000),
    lasting: PerMille(0),
    rounds: 2,
    refill: Span::millis(1_300),
    pain: 7,
    doses: 1,
};

/// Upper lip.
pub const LIP: Patient = COMMON;
/// Nose and fold.
pub const NOSE_WITH_FOLD: Patient = Patient {
    years: 41,
    weight: Mass::kg(70),
    area: Area::mm2(1_500),
    onset: Span::minutes(90),
    harm: Span::minutes(80),
    rounds: 3,
    refill: Span::millis(1_400),
    pain: 8,
    ..COMMON
};
/// Seen late.
pub const LATE: Patient = Patient {
    years: 52,
    weight: Mass::kg(66),
    area: Area::mm2(1_200),
    onset: Span::hours(74),
    harm: Span::minutes(400),
    blocked: PerMille(700),
    lasting: PerMille(200),
    rounds: 2,
    refill: Span::millis(1_500),
    pain: 5,
    ..COMMON
};
/// A vein.
pub const VENOUS: Patient = Patient {
    years: 38,
    weight: Mass::kg(58),
    area: Area::mm2(1_100),
    onset: Span::hours(5),
    harm: Span::minutes(60),
    refill: Span::millis(1_400),
    pain: 4,
    ..COMMON
};
/// Sight lost on the way.
pub const VISION: Patient = Patient {
    years: 29,
    weight: Mass::kg(60),
    area: Area::mm2(1_000),
    onset: Span::minutes(20),
    harm: Span::minutes(20),
    rounds: 3,
    refill: Span::millis(1_200),
    ..COMMON
};
/// A reaction on the way.
pub const ANAPHYLAXIS: Patient = Patient {
    years: 46,
    weight: Mass::kg(74),
    area: Area::mm2(750),
    onset: Span::minutes(40),
    harm: Span::minutes(40),
    rounds: 3,
    refill: Span::millis(1_100),
    pain: 6,
    doses: 2,
    ..COMMON
};
/// With a vial out of date.
pub const EXPIRED: Patient = Patient { years: 33, weight: Mass::kg(64), ..COMMON };

/// After the second look sight goes.
pub const SIGHT_AFTER_LOOK: (u32, Span) = (2, Span::minutes(4));
/// And at this time at the latest, looked or not.
pub const SIGHT_AT_LATEST: Span = Span::minutes(150);
/// The reaction begins so long after the first unit of this round.
pub const REACTION_AFTER_ROUND: (u32, Span) = (2, Span::minutes(6));

/// Units on a vial in the bag.
pub const VIAL: Units = Units::whole(1_500);
/// Vials in a bag that is filled.
pub const VIALS: u32 = 4;
/// An expiry still to come, in months from the start's.
pub const MONTHS_LEFT: i16 = 14;
/// An expiry gone by, in months from the start's.
pub const MONTHS_PAST: i16 = -3;
/// The batch of the vials in date.
pub const BATCH: &str = "H24-117";
/// The batch of the vial out of date.
pub const BATCH_PAST: &str = "H22-048";
/// Millilitres of adrenaline of 1 mg/mL in the bag, each its own.
pub const ADRENALINE: u32 = 4;

/// Units on each cm² that have full effect.
pub const NEED: Units = Units::whole(35);
/// Skin that each 0.1 mL reaches at most.
pub const REACH: (Volume, Area) = (Volume::ul(100), Area::mm2(150));
/// At this strength and above the enzyme has its full effect; below, in proportion.
pub const FULL_STRENGTH: Strength = Strength::per_ml(300);
/// A round of no more effect than this opens nothing: what it frees closes again.
pub const EFFECT_FLOOR: PerMille = PerMille(500);
/// A round of this effect and more opens as much as any can.
pub const EFFECT_FULL: PerMille = PerMille(950);
/// In this time half of the effect still to come has come.
pub const EFFECT_HALF: Span = Span::minutes(10);
/// Activity of a vial out of date. Nobody can say what it is: this is a model's own assumption.
pub const EXPIRED_ACTIVITY: PerMille = PerMille(500);

/// Blockage up to which the skin has its blood back.
pub const BACK: PerMille = PerMille(60);
/// Ischaemia in which the outline grows by [`GROWTH`], and how much at most by [`GROWTH_MOST`].
pub const GROWTH_EACH: Span = Span::hours(1);
/// So much larger for each [`GROWTH_EACH`] of complete ischaemia since the start.
pub const GROWTH: PerMille = PerMille(60);
/// No larger than by so much.
pub const GROWTH_MOST: PerMille = PerMille(500);
/// Pale skin turns mottled after so much ischaemia.
pub const MOTTLED_AFTER: Span = Span::minutes(60);
/// Pustules show after so much. Pig flaps survive less from 6 h on; the published stage comes at 72 h
/// of an incomplete blockage.
pub const PUSTULES_AFTER: Span = Span::hours(6);
/// Skin is lost after so much. Half of pig flaps were lost at 9 h.
pub const LOST_AFTER: Span = Span::hours(9);
/// What a rehearsal can show ends so long after its start.
pub const LONGEST: Span = Span::hours(72);

/// Refill at complete blockage of an artery is slower by this.
pub const SLOWER: Span = Span::millis(3_600);
/// Refill at complete blockage of a vein is quicker by this.
pub const QUICKER: Span = Span::millis(600);
/// A reading scatters by no more than this to either side, less than half of a reader's noise.
pub const SCATTER: Span = Span::millis(70);
/// From this blockage on refill is slow to the eye.
pub const SLOW_FROM: PerMille = PerMille(250);
/// Above this blockage skin short of blood is mottled or blue; up to it, it is on its way back.
pub const FADES_AT: PerMille = PerMille(550);
/// From this blockage on the skin is cool.
pub const COOL_FROM: PerMille = PerMille(300);
/// From this blockage on, once [`MOTTLED_AFTER`] has passed, the part is weak or numb.
pub const IMPAIRED_FROM: PerMille = PerMille(800);
/// From these scores on it hurts, and hurts badly.
pub const HURTS_FROM: (u8, u8) = (3, 6);

/// How much a reaction worsens in a minute while nothing is given.
pub const REACTION_RISES: u64 = 80;
/// The same while fewer doses have been given than it takes.
pub const REACTION_HELD: u64 = 20;
/// How much it settles in a minute once enough has been given.
pub const REACTION_FALLS: u64 = 120;
/// Each injection of enzyme in its course makes it worse by this.
pub const REACTION_FED: u64 = 40;
/// Adrenaline acts after this time.
pub const ADRENALINE_ACTS: Span = Span::minutes(2);
/// What a reaction can show is settled so long after its first sign.
pub const REACTION_LONGEST: Span = Span::hours(3);
/// The time from one reckoning of a reaction to the next.
pub const REACTION_STEP: Span = Span::seconds(10);
/// At so much of a reaction: faint.
pub const FAINT_FROM: u64 = 250;
/// Breathless.
pub const BREATHLESS_FROM: u64 = 350;
/// Wheezing.
pub const WHEEZES_FROM: u64 = 500;
/// The throat swells.
pub const THROAT_FROM: u64 = 600;
/// Blood pressure falls.
pub const COLLAPSE_FROM: u64 = 800;
/// A reaction is at its worst.
pub const WORST: u64 = 1_000;

/// What a debrief calls quick, and from when on slow. No deadline: nobody knows one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    /// Up to this it is good.
    pub good: Span,
    /// Above this it is dangerous.
    pub slow: Span,
}

const fn pace(good: u64, slow: u64) -> Pace {
    Pace { good: Span::minutes(good), slow: Span::minutes(slow) }
}

/// From the start until it is taken for urgent.
pub const RECOGNISED: Pace = pace(5, 20);
/// From the start until the first unit.
pub const FIRST_UNIT: Pace = pace(20, 60);
/// From the loss of sight until it is noticed.
pub const SIGHT_NOTICED: Pace = pace(5, 15);
/// From the loss of sight until the hand-over.
pub const SIGHT_HANDED_OVER: Pace = pace(10, 20);
/// From the first sign of a reaction until it is noticed.
pub const REACTION_NOTICED: Pace = pace(4, 8);
/// From the first sign of a reaction until the first adrenaline.
pub const ADRENALINE_GIVEN: Pace = pace(6, 12);
/// From the first sign of a reaction until the call for help.
pub const CALLED: Pace = pace(6, 15);
/// A look later than due.
pub const LOOK_LATE: Pace = pace(5, 30);
/// Coverage that is good, and below which it is dangerous.
pub const COVERAGE: (PerMille, PerMille) = (PerMille(900), PerMille(600));
/// After this time the effect of a round has come, as good as all.
pub const EFFECT_COMES: Span = Span::minutes(60);

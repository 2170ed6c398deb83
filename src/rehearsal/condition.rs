//! What the patient looks like, and says, at a moment.

use super::coming::{Reacting, came};
use super::course::Course;
use super::given::{WHOLE, laid, until};
use super::scenario::{Brief, Comes, Picture, Scenario};
use crate::care::anaphylaxis::{self, Recognised, recognise};
use crate::care::refill::{Colour, Refill};
use crate::care::rounds::{Function, Pain, Temperature};
use crate::care::situation::{RedFlag, Sign};
use crate::case::{Case, Journal};
use crate::measure::{Area, Moment, Span};
use crate::protocol::PerMille;
use crate::protocol::simulation::{
    BACK, COOL_FROM, FADES_AT, HURTS_FROM, IMPAIRED_FROM, MOTTLED_AFTER, PUSTULES_AFTER, QUICKER,
    SCATTER, SLOW_FROM, SLOWER,
};
use serde::{Deserialize, Serialize};

/// What the patient says unasked, or when asked how it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Says {
    /// It hurts badly, more than the needle did.
    HurtsBadly,
    /// It hurts.
    Hurts,
    /// It hurts a little.
    HurtsLittle,
    /// It does not hurt any more.
    NoPain,
    /// It feels cold or numb there.
    Numb,
    /// The left eye sees in a blur, or nothing.
    BlurredLeft,
    /// There is pain behind the left eye.
    EyeHurts,
    /// It itches all over.
    Itches,
    /// The throat is tight.
    ThroatTight,
    /// Breathing is hard.
    Breathless,
    /// Everything goes dark, about to faint.
    Faint,
    /// Breathing is easier again.
    Easier,
}

/// The patient at a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condition {
    /// Refill where the skin changed, as it would be read now.
    pub affected: Span,
    /// Refill of the same place on the other side.
    pub opposite: Span,
    /// Signs on the skin.
    pub signs: Vec<Sign>,
    /// Colour.
    pub colour: Colour,
    /// Pain.
    pub pain: Pain,
    /// How the skin feels.
    pub temperature: Temperature,
    /// Movement and feeling of the part.
    pub function: Function,
    /// Signs that go before everything.
    pub flags: Vec<RedFlag>,
    /// Signs of a severe reaction.
    pub reaction: Vec<anaphylaxis::Sign>,
    /// Skin still without blood.
    pub area: Area,
    /// What the patient says, the most urgent first.
    pub said: Vec<Says>,
}

impl Condition {
    /// Both refill times, as a look takes them down.
    pub const fn refill(&self) -> Refill {
        Refill { affected: self.affected, opposite: Some(self.opposite) }
    }
}

/// The patient of a scenario at `now`, when it was begun at `start` and this was done.
///
/// Entries later than `now` have not happened yet. Before `start` it is as at `start`.
pub fn condition(scenario: Scenario, start: Moment, journal: &Journal, now: Moment) -> Condition {
    let brief = scenario.brief();
    let now = now.max(start);
    let journal = until(journal, now);
    let case = Case::of(&journal);
    let laid = laid(brief, &journal, &case);
    let course = Course::of(&brief.patient, start, &laid, now);
    let happened = |what| came(what, brief, start, &case, &laid, now);
    let reacting = happened(Comes::Reaction)
        .map(|onset| Reacting::of(brief, onset, &journal, &case, &laid, now))
        .unwrap_or_default();
    let sight = happened(Comes::SightLoss).is_some();
    let minute = now.since(start).as_minutes();
    let skin = Skin { brief, course: &course };
    let (affected, opposite) = skin.refill(scenario, minute);
    let reaction = reacting.signs();
    let mut flags = Vec::new();
    if sight {
        flags.push(RedFlag::Sight);
    }
    if recognise(&reaction) != Recognised::NotMet {
        flags.push(RedFlag::Airway);
    }
    Condition {
        affected,
        opposite,
        signs: skin.signs(),
        colour: skin.colour(),
        pain: skin.pain(),
        temperature: skin.temperature(),
        function: skin.function(),
        flags,
        said: said(&skin, sight, &reacting),
        reaction,
        area: course.area,
    }
}

/// What can be seen of a course.
struct Skin<'a> {
    brief: &'static Brief,
    course: &'a Course,
}

impl Skin<'_> {
    fn open(&self) -> bool {
        self.course.blocked <= u64::from(BACK.0)
    }

    fn from(&self, part: PerMille) -> bool {
        !self.open() && self.course.blocked >= u64::from(part.0)
    }

    /// Refill on both sides; each scatters by its own draw, the same for the same minute.
    fn refill(&self, scenario: Scenario, minute: u64) -> (Span, Span) {
        let base = self.brief.patient.refill.as_millis();
        let by = |most: Span| {
            if self.open() { 0 } else { most.as_millis() * self.course.blocked / WHOLE }
        };
        let affected = match self.brief.picture {
            Picture::Arterial => base + by(SLOWER),
            Picture::Venous => base.saturating_sub(by(QUICKER)),
        };
        let scattered = |time: u64, side: u64| {
            let seed = (scenario as u64 + 1) ^ (side << 8) ^ (minute << 16);
            let wide = 2 * SCATTER.as_millis() + 1;
            Span::millis((time + drawn(seed) % wide).saturating_sub(SCATTER.as_millis()))
        };
        (scattered(affected, 1), scattered(base, 2))
    }

    fn colour(&self) -> Colour {
        let fades = !self.from(FADES_AT);
        if self.course.lost() {
            Colour::Black
        } else if self.open() {
            Colour::Normal
        } else {
            match self.brief.picture {
                Picture::Venous if fades => Colour::Mottled,
                Picture::Venous => Colour::Blue,
                Picture::Arterial if fades || self.course.harm < MOTTLED_AFTER => Colour::Pale,
                Picture::Arterial => Colour::Mottled,
            }
        }
    }

    fn pain(&self) -> Pain {
        let worst = u64::from(self.brief.patient.pain);
        let score = if self.open() { 0 } else { (worst * self.course.blocked).div_ceil(WHOLE) };
        u8::try_from(score).ok().and_then(Pain::new).unwrap_or_default()
    }

    fn temperature(&self) -> Temperature {
        if self.from(COOL_FROM) { Temperature::Cool } else { Temperature::Warm }
    }

    fn function(&self) -> Function {
        let long = self.course.harm >= MOTTLED_AFTER;
        if long && self.from(IMPAIRED_FROM) { Function::Impaired } else { Function::Normal }
    }

    fn signs(&self) -> Vec<Sign> {
        let mut signs: Vec<Sign> = match self.colour() {
            Colour::Normal => None,
            Colour::Pale => Some(Sign::Pallor),
            Colour::Mottled => Some(Sign::Mottling),
            Colour::Blue => Some(Sign::Blue),
            Colour::Black => Some(Sign::Blackening),
        }
        .into_iter()
        .collect();
        let arterial = self.brief.picture == Picture::Arterial;
        let more = [
            (arterial && self.from(SLOW_FROM), Sign::SlowRefill),
            (self.pain() != Pain::NONE, Sign::Pain),
            (self.temperature() == Temperature::Cool, Sign::Coolness),
            (self.course.harm >= PUSTULES_AFTER, Sign::Pustules),
        ];
        signs.extend(more.into_iter().filter(|(there, _)| *there).map(|(_, sign)| sign));
        signs
    }
}

fn said(skin: &Skin, sight: bool, reacting: &Reacting) -> Vec<Says> {
    let pain = skin.pain().score();
    let has = |sign| reacting.signs().contains(&sign);
    let (hurts, badly) = HURTS_FROM;
    let all = [
        (has(anaphylaxis::Sign::UpperAirway), Says::ThroatTight),
        (has(anaphylaxis::Sign::Breathing), Says::Breathless),
        (has(anaphylaxis::Sign::Circulation), Says::Faint),
        (sight, Says::BlurredLeft),
        (sight, Says::EyeHurts),
        (has(anaphylaxis::Sign::Skin), Says::Itches),
        (has(anaphylaxis::Sign::Skin) && reacting.settles, Says::Easier),
        (pain >= badly, Says::HurtsBadly),
        ((hurts..badly).contains(&pain), Says::Hurts),
        ((1..hurts).contains(&pain), Says::HurtsLittle),
        (pain == 0, Says::NoPain),
        (skin.function() == Function::Impaired, Says::Numb),
    ];
    all.into_iter().filter(|(says, _)| *says).map(|(_, what)| what).collect()
}

/// A number drawn from a seed: the same for the same seed, and unlike that of its neighbours.
const fn drawn(seed: u64) -> u64 {
    let mut mixed = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15);
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

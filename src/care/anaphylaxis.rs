//! Recognising anaphylaxis, adrenaline, the clock of its repeat, and how long to watch.

mod observe;
mod weight;

pub use observe::{Counted, Observation, observe};
pub use weight::{NoWeight, dose_by_weight, odd_for_age};

use crate::measure::{Moment, Span, Volume};
use crate::protocol::adrenaline::{
    MIDDLE_FROM_DOSES, OBSERVE_LONG, OBSERVE_MIDDLE, OBSERVE_SHORT, UK_SMALL, table,
};
use crate::protocol::{Protocol, Region};
use serde::{Deserialize, Serialize};

/// A sign, by what it touches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Sign {
    /// Swelling of tongue or throat, hoarse voice, stridor.
    UpperAirway,
    /// Wheeze.
    Bronchospasm,
    /// Breathless, fast breathing, low oxygen.
    Breathing,
    /// Low blood pressure, collapse.
    Hypotension,
    /// Pale, clammy, fast pulse, faint.
    Circulation,
    /// Persistent severe belly pain or vomiting.
    Gut,
    /// Hives, flushing, swelling of the face.
    Skin,
}

/// Whether the signs meet the criteria for anaphylaxis (ASCIA, in line with WAO 2020).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Recognised {
    /// Low pressure, bronchospasm or upper airway: enough without any skin sign.
    WithoutSkin,
    /// Skin together with breathing, circulation or severe gut signs.
    WithSkin,
    /// Not met so far. Watch: it may develop within minutes.
    NotMet,
}

/// Applies the criteria to signs of sudden onset.
pub fn recognise(signs: &[Sign]) -> Recognised {
    let has = |sign| signs.contains(&sign);
    if has(Sign::Hypotension) || has(Sign::Bronchospasm) || has(Sign::UpperAirway) {
        Recognised::WithoutSkin
    } else if has(Sign::Skin) && (has(Sign::Breathing) || has(Sign::Circulation) || has(Sign::Gut))
    {
        Recognised::WithSkin
    } else {
        Recognised::NotMet
    }
}

/// A dose of adrenaline 1 mg/mL into muscle: a range where the table prints one, or where the ages
/// of two rows touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dose {
    /// Least.
    pub low: Volume,
    /// Most.
    pub high: Volume,
}

/// Body size, where the UK table asks for it over 12.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Build {
    /// Grown.
    #[default]
    Adult,
    /// Small or prepubertal.
    Small,
}

/// The dose for an age under a region's table.
pub fn dose(months: u32, build: Build, region: Region) -> Dose {
    let rows =
        table(region).iter().filter(|row| (row.from_months..=row.to_months).contains(&months));
    let (low, high) = rows.fold((None, None), |(low, high), row| {
        let low = low.map_or(row.low, |low: Volume| low.min(row.low));
        let high = high.map_or(row.high, |high: Volume| high.max(row.high));
        (Some(low), Some(high))
    });
    // Every table covers every age; see the test.
    let (low, high) = (low.unwrap_or(UK_SMALL), high.unwrap_or(UK_SMALL));
    match (region, build) {
        (Region::Uk, Build::Small) => Dose { low: low.min(UK_SMALL), high: high.min(UK_SMALL) },
        _ => Dose { low, high },
    }
}

/// Whether the dose depends on the build, so that it has to be asked.
pub fn asks_build(months: u32, region: Region) -> bool {
    dose(months, Build::Small, region) != dose(months, Build::Adult, region)
}

/// What is recorded of a reaction.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Act {
    /// Signs were seen.
    Signs(Vec<Sign>),
    /// The emergency number was called.
    Called,
    /// Adrenaline went into the muscle.
    Adrenaline(Volume),
    /// Laid flat, legs up; or sitting if breathing is easier so.
    Positioned,
    /// Fluids into a vein.
    Fluids,
    /// Better: airway, breathing and circulation.
    Better,
    /// Not better.
    NotBetter,
    /// Taken over by others, or over.
    Over,
}

/// A reaction, folded from its acts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reaction {
    started: Option<Moment>,
    doses: Vec<(Moment, Volume)>,
    better: Option<Moment>,
    /// Said to be no better since the last dose.
    no_better: bool,
    called: Option<Moment>,
    positioned: Option<Moment>,
    fluids: Option<Moment>,
    over: Option<Moment>,
    /// By how many milliseconds the clock was set since the last dose.
    clock_set: i64,
}

impl Reaction {
    /// Applies what happened at a moment.
    pub fn apply(&mut self, at: Moment, act: &Act) {
        if self.started.is_none() {
            self.started = Some(at);
        }
        match act {
            Act::Called => {
                self.called.get_or_insert(at);
            }
            Act::Adrenaline(volume) => {
                self.doses.push((at, *volume));
                self.better = None;
                self.no_better = false;
                self.clock_set = 0;
            }
            Act::Better => {
                self.better = Some(at);
                self.no_better = false;
            }
            Act::NotBetter => {
                self.better = None;
                self.no_better = true;
            }
            Act::Positioned => {
                self.positioned.get_or_insert(at);
            }
            Act::Fluids => {
                self.fluids.get_or_insert(at);
            }
            Act::Signs(_) => {}
            Act::Over => self.over = Some(at),
        }
        if *act != Act::Over {
            self.over = None;
        }
    }

    /// The phone's clock was set by so many milliseconds, back if negative. The next dose is due
    /// after the same time as before, which a clock set back now shows otherwise.
    ///
    /// A jump forward takes an earlier one back and no more: a device that slept in full view looks
    /// the same, and must not put a dose off.
    pub fn clock_jumped(&mut self, millis: i64) {
        self.clock_set = self.clock_set.saturating_add(millis).min(0);
    }

    /// When the first sign or act was recorded.
    pub const fn started(&self) -> Option<Moment> {
        self.started
    }

    /// When help was called.
    pub const fn called(&self) -> Option<Moment> {
        self.called
    }

    /// When the patient was laid flat, or sat up to breathe.
    pub const fn positioned(&self) -> Option<Moment> {
        self.positioned
    }

    /// When fluids were started.
    pub const fn fluids(&self) -> Option<Moment> {
        self.fluids
    }

    /// The doses given.
    pub fn doses(&self) -> &[(Moment, Volume)] {
        &self.doses
    }

    /// Whether it is still going on.
    pub const fn active(&self) -> bool {
        self.started.is_some() && self.over.is_none()
    }

    /// Whether the patient is better since the last dose.
    pub const fn better(&self) -> bool {
        self.better.is_some()
    }

    /// When the signs had settled, as far as it is known: when it was called better, else when it was
    /// said to be over.
    pub fn settled(&self) -> Option<Moment> {
        self.better.or(self.over)
    }

    /// When the next dose is due if nothing gets better; `None` before the first dose, once better,
    /// or when over.
    pub fn next_dose(&self, protocol: &Protocol) -> Option<Moment> {
        let (last, _) = self.doses.last()?;
        let due = last.after(protocol.adrenaline_repeat).on_clock_set_by(self.clock_set);
        (self.active() && self.better.is_none()).then_some(due)
    }

    /// Whether it counts as refractory: the number of doses given, and no improvement said, or
    /// nothing said until the next dose is due.
    pub fn refractory(&self, now: Moment, protocol: &Protocol) -> bool {
        let given = u32::try_from(self.doses.len()).unwrap_or(u32::MAX);
        let waited = || self.next_dose(protocol).is_some_and(|due| due <= now);
        given >= protocol.refractory_doses && self.better.is_none() && (self.no_better || waited())
    }
}

/// What the time of observation depends on, UK rule.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(clippy::struct_excessive_bools, reason = "six independent yes-or-no facts of the rule")]
pub struct Course {
    /// A good response to one dose, both within the times that the rule names
    /// ([`GOOD_RESPONSE`](crate::protocol::adrenaline::GOOD_RESPONSE),
    /// [`DOSE_WITHIN`](crate::protocol::adrenaline::DOSE_WITHIN)).
    pub quick_response: bool,
    /// Fully settled, with auto-injectors, trained, and somebody at home.
    pub safe_home: bool,
    /// A biphasic reaction before.
    pub biphasic_before: bool,
    /// Severe asthma or severe breathing trouble.
    pub severe_breathing: bool,
    /// The trigger may still be taken up.
    pub still_absorbing: bool,
    /// Late at night, cannot respond to worsening, or far from help.
    pub far_from_help: bool,
}

/// The shortest observation that the UK rule allows after `doses` of adrenaline.
pub fn observation(doses: usize, course: Course) -> Span {
    if doses > MIDDLE_FROM_DOSES
        || course.severe_breathing
        || course.still_absorbing
        || course.far_from_help
    {
        OBSERVE_LONG
    } else if doses >= MIDDLE_FROM_DOSES
        || course.biphasic_before
        || !(course.quick_response && course.safe_home)
    {
        OBSERVE_MIDDLE
    } else {
        OBSERVE_SHORT
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn skin_alone_is_not_enough_and_airway_alone_is() {
        assert_eq!(recognise(&[Sign::Skin]), Recognised::NotMet);
        assert_eq!(recognise(&[Sign::Skin, Sign::Gut]), Recognised::WithSkin);
        assert_eq!(recognise(&[Sign::UpperAirway]), Recognised::WithoutSkin);
        assert_eq!(recognise(&[Sign::Gut]), Recognised::NotMet);
    }

    #[test]
    fn each_table_covers_every_age_and_grows_with_it() {
        for region in [Region::Uk, Region::Australia] {
            let mut before = Volume::ZERO;
            for months in 0..1_300 {
                let rows = table(region).iter();
                assert!(
                    rows.clone().any(|row| (row.from_months..=row.to_months).contains(&months))
                );
                let dose = dose(months, Build::Adult, region);
                assert!(dose.low <= dose.high && dose.low >= before, "{region:?} {months}");
                before = dose.low;
            }
        }
    }

    #[test]
    fn the_repeat_clock_runs_until_better() {
        let protocol = Protocol::default();
        let start = Moment::from_millis(0);
        let at = |minutes| start.after(Span::minutes(minutes));
        let mut reaction = Reaction::default();
        assert_eq!(reaction.next_dose(&protocol), None);
        reaction.apply(at(0), &Act::Adrenaline(Volume::ul(500)));
        assert_eq!(reaction.next_dose(&protocol), Some(at(5)));
        reaction.apply(at(5), &Act::Adrenaline(Volume::ul(500)));
        assert!(!reaction.refractory(at(5), &protocol), "nobody has seen yet what the dose does");
        assert!(reaction.refractory(at(10), &protocol));
        reaction.apply(at(6), &Act::NotBetter);
        assert!(reaction.refractory(at(6), &protocol));
        reaction.apply(at(7), &Act::Better);
        assert_eq!(reaction.next_dose(&protocol), None);
        assert!(!reaction.refractory(at(12), &protocol));
        reaction.apply(at(9), &Act::Over);
        assert!(!reaction.active());
        assert_eq!(reaction.settled(), Some(at(7)));
        reaction.apply(at(20), &Act::Signs(vec![Sign::Breathing]));
        assert!(reaction.active(), "a second wave opens it again");
    }

    #[test]
    fn a_clock_set_back_does_not_put_off_the_next_dose() {
        let at = |minutes| Moment::from_millis(0).after(Span::minutes(minutes));
        let protocol = Protocol::default();
        let mut reaction = Reaction::default();
        reaction.apply(at(60), &Act::Adrenaline(Volume::ul(500)));
        reaction.clock_jumped(-30 * 60_000);
        assert_eq!(reaction.next_dose(&protocol), Some(at(35)));
        reaction.clock_jumped(60 * 60_000);
        assert_eq!(reaction.next_dose(&protocol), Some(at(65)), "no later than it was");
        reaction.apply(at(35), &Act::Adrenaline(Volume::ul(500)));
        assert_eq!(reaction.next_dose(&protocol), Some(at(40)));
    }

    #[test]
    fn build_is_asked_where_it_changes_the_dose() {
        assert!(!asks_build(155, Region::Uk) && asks_build(156, Region::Uk));
        assert!(!asks_build(156, Region::Australia));
        assert_eq!(dose(480, Build::Small, Region::Uk).high, UK_SMALL);
    }

    #[test]
    fn the_first_time_of_each_help_stays() {
        let at = |minutes| Moment::from_millis(0).after(Span::minutes(minutes));
        let mut reaction = Reaction::default();
        for minute in 0..2 {
            for act in [Act::Called, Act::Positioned, Act::Fluids] {
                reaction.apply(at(minute), &act);
            }
        }
        let first = [reaction.called(), reaction.positioned(), reaction.fluids()];
        assert_eq!(first, [Some(at(0)); 3]);
    }

    #[test]
    fn observation_by_rule() {
        let good = Course { quick_response: true, safe_home: true, ..Course::default() };
        assert_eq!(observation(1, good), Span::hours(2));
        assert_eq!(observation(2, good), Span::hours(6));
        assert_eq!(observation(3, good), Span::hours(12));
        assert_eq!(observation(1, Course { far_from_help: true, ..good }), Span::hours(12));
        assert_eq!(observation(1, Course::default()), Span::hours(6));
    }
}

//! How long to watch after a reaction, by the rule of the region.

use super::{Course, observation};
use crate::measure::{Moment, Span};
use crate::protocol::Region;
use crate::protocol::adrenaline::{AU_OBSERVE, AU_OVERNIGHT_FROM_DOSES, observation_source};
use crate::protocol::source::Source;

/// From when the time of observation is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// From when the signs had settled.
    FromSettled,
    /// From the last dose of adrenaline.
    FromLastDose,
}

/// How long to watch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Observation {
    /// At least so long.
    pub least: Span,
    /// From when.
    pub counted: Counted,
    /// Whether a night in hospital is to be considered.
    pub overnight: bool,
    /// Who says so.
    pub source: Source,
}

impl Observation {
    /// The moment before which nobody goes home. Without a dose, where it is counted from one, from
    /// when the signs had settled.
    pub fn until(&self, settled: Moment, last_dose: Option<Moment>) -> Moment {
        let from = match self.counted {
            Counted::FromSettled => settled,
            Counted::FromLastDose => last_dose.unwrap_or(settled),
        };
        from.after(self.least)
    }
}

/// How long to watch after so many doses of adrenaline.
///
/// The UK rule has three lengths ([`observation`]). The Australian one has one, and reasons for a
/// night in hospital: more than one dose, severe asthma, late in the evening, alone or far from
/// help, no auto-injector to go home with.
pub fn observe(region: Region, doses: usize, course: Course) -> Observation {
    let source = observation_source(region);
    match region {
        Region::Uk => Observation {
            least: observation(doses, course),
            counted: Counted::FromSettled,
            overnight: false,
            source,
        },
        Region::Australia => Observation {
            least: AU_OBSERVE,
            counted: Counted::FromLastDose,
            overnight: doses >= AU_OVERNIGHT_FROM_DOSES
                || course.severe_breathing
                || course.far_from_help
                || !course.safe_home,
            source,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_region_counts_from_its_own_moment() {
        let at = |minutes| Moment::from_millis(0).after(Span::minutes(minutes));
        let safe = Course { quick_response: true, safe_home: true, ..Course::default() };
        let until = |region| observe(region, 1, safe).until(at(20), Some(at(5)));
        assert_eq!(until(Region::Uk), at(20).after(Span::hours(2)));
        assert_eq!(until(Region::Australia), at(5).after(Span::hours(4)));
        let undosed = observe(Region::Australia, 0, safe).until(at(20), None);
        assert_eq!(undosed, at(20).after(Span::hours(4)));
    }

    #[test]
    fn what_is_not_known_to_be_safe_stays_the_night() {
        assert!(observe(Region::Australia, 1, Course::default()).overnight);
        assert!(!observe(Region::Uk, 3, Course::default()).overnight);
    }
}

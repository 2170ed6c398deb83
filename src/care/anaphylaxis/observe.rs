//! How long to watch after a reaction, by the rule of the region.

use super::{Course, observation};
use crate::measure::{Moment, Span};
use crate::protocol::adrenaline::{
    AU_OBSERVE, AU_OVERNIGHT_FROM_DOSES, observation_basis, observation_source,
    observation_start_basis,
};
use crate::protocol::source::Source;
use crate::protocol::{Basis, Region};

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
    /// How well founded that length is, and the reasons for a night with it.
    pub least_basis: Basis,
    /// From when.
    pub counted: Counted,
    /// How well founded that moment is.
    pub counted_basis: Basis,
    /// Whether a night in hospital is to be considered.
    pub overnight: bool,
    /// Who says so; where it is from memory, where it is to be looked up.
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
    let (least, counted, overnight) = match region {
        Region::Uk => (observation(doses, course), Counted::FromSettled, false),
        Region::Australia => {
            let night = doses >= AU_OVERNIGHT_FROM_DOSES
                || course.severe_breathing
                || course.far_from_help
                || !course.safe_home;
            (AU_OBSERVE, Counted::FromLastDose, night)
        }
    };
    Observation {
        least,
        least_basis: observation_basis(region),
        counted,
        counted_basis: observation_start_basis(region),
        overnight,
        source: observation_source(region),
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
    fn what_nobody_looked_up_says_so() {
        let founded = |region| {
            let watch = observe(region, 1, Course::default());
            (watch.least_basis, watch.counted_basis)
        };
        let uk = Basis::Published(observation_source(Region::Uk));
        assert_eq!(founded(Region::Uk), (uk, Basis::Proposal));
        assert_eq!(founded(Region::Australia), (Basis::FromMemory, Basis::FromMemory));
    }

    #[test]
    fn what_is_not_known_to_be_safe_stays_the_night() {
        assert!(observe(Region::Australia, 1, Course::default()).overnight);
        assert!(!observe(Region::Uk, 3, Course::default()).overnight);
    }
}

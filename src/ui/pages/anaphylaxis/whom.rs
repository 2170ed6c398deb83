//! For whom the dose is: age, weight, build, and whose table.

use super::Sheet;
use crate::care::anaphylaxis::{
    Build, Dose, NoWeight, asks_build, dose, dose_by_weight, odd_for_age,
};
use crate::measure::{Mass, Volume};
use crate::protocol::Region;
use crate::protocol::adrenaline::{GROWN_MONTHS, by_weight};
use crate::ui::words::typed;

/// Months in a year.
const YEAR: u32 = 12;

/// What stands in the fields, so that what cannot be read is there again to be put right.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Typed {
    /// The age.
    pub age: String,
    /// Whether it is in months.
    pub months: bool,
    /// The weight.
    pub weight: String,
}

impl Typed {
    /// What stands there for an age that the case knows.
    pub fn of(whom: Whom) -> Self {
        let age = whom.age.map(|(number, _)| number.to_string()).unwrap_or_default();
        Self { age, months: whom.age.is_some_and(|(_, years)| !years), weight: String::new() }
    }
}

/// For whom the dose is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Whom {
    /// Age, and whether in years; without it, a grown person.
    pub age: Option<(u32, bool)>,
    /// Whether an age was typed here; else it is the case's.
    pub(super) age_typed: bool,
    /// Whether an age was typed that cannot be read: no dose may then be shown as if for it.
    pub(super) age_unread: bool,
    /// Weight as typed, whether or not the table in force asks for one.
    pub(super) weight: Option<Mass>,
    /// Whether a weight was typed that cannot be read.
    pub(super) weight_unread: bool,
    /// Grown or small, once said.
    pub build: Option<Build>,
    /// Whose table.
    pub region: Region,
    /// The one chosen, where there are two.
    pub chosen: Option<Volume>,
}

/// Why no one dose follows from what was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// The age typed cannot be read.
    AgeUnread,
    /// The weight typed cannot be read.
    WeightUnread,
    /// A weight stands there that gives no dose, and no age: a grown person's dose would be shown for
    /// somebody who may be a child.
    AgeWanted,
    /// Weight and age do not go together; both doses are shown.
    Odd,
}

impl Whom {
    /// As far as the case knows.
    pub fn of(sheet: Sheet) -> Self {
        let person = sheet
            .case()
            .and_then(|case| case.findings.as_ref().map(|found| found.person))
            .unwrap_or_default();
        Self {
            age: person.years.map(|years| (years, true)),
            region: sheet.protocol().region,
            ..Self::default()
        }
    }

    /// Takes what was typed. A dose chosen for another patient no longer counts.
    pub fn read(&mut self, typed: &Typed) {
        let age = typed::field::<u32>(&typed.age);
        let weight = typed::field::<Mass>(&typed.weight);
        self.age_unread = age.is_err();
        self.age = age.ok().flatten().map(|number| (number, !typed.months));
        self.age_typed = self.age.is_some();
        self.weight_unread = weight.is_err();
        self.weight = weight.ok().flatten();
        self.chosen = None;
    }

    /// The same patient under another table.
    pub fn under(self, region: Region) -> Self {
        Self { region, ..self }
    }

    /// Age in months, as far as the tables tell ages apart.
    pub fn months(self) -> u32 {
        match self.age {
            None => GROWN_MONTHS,
            Some((years, true)) => years.saturating_mul(YEAR),
            Some((months, false)) => months,
        }
    }

    /// Whether the table in force has doses by weight: only then does one count that was typed.
    fn weighs(self) -> bool {
        by_weight(self.region).is_some()
    }

    /// The weight, where it counts.
    pub fn weight(self) -> Option<Mass> {
        self.weight.filter(|_| self.weighs())
    }

    /// Whether anything was said of the patient here. Whose table goes says nothing of the patient.
    pub fn said(self) -> bool {
        let age = self.age_typed || self.age_unread;
        let weight = self.weight().is_some() || (self.weighs() && self.weight_unread);
        age || weight || self.build.is_some() || self.chosen.is_some()
    }

    /// The build; grown unless said.
    pub fn built(self) -> Build {
        self.build.unwrap_or_default()
    }

    /// Whether the dose depends on the build.
    pub fn asks_build(self) -> bool {
        !self.weighed() && asks_build(self.months(), self.region)
    }

    /// Whether the dose is that of a small person.
    pub fn small(self) -> bool {
        self.built() == Build::Small && self.asks_build()
    }

    /// The dose by the weight typed, if one counts.
    pub fn by_weight(self) -> Option<Result<Dose, NoWeight>> {
        self.weight().map(|weight| dose_by_weight(weight, self.region))
    }

    /// Whether the dose is by weight.
    pub fn weighed(self) -> bool {
        self.by_weight().is_some_and(|dose| dose.is_ok())
    }

    /// The dose by the table in force: by weight where it has one and one was typed, else by age.
    /// Where the two do not go together, from the one to the other. None while it is not known for
    /// whom.
    pub fn dose(self) -> Option<Dose> {
        let doubt = self.doubt();
        if doubt.is_some_and(|doubt| doubt != Doubt::Odd) {
            return None;
        }
        let by_age = dose(self.months(), self.built(), self.region);
        Some(match self.by_weight() {
            Some(Ok(by_weight)) if doubt == Some(Doubt::Odd) => {
                Dose { low: by_weight.low.min(by_age.low), high: by_weight.high.max(by_age.high) }
            }
            Some(Ok(by_weight)) => by_weight,
            Some(Err(_)) | None => by_age,
        })
    }

    /// Whether a weight was typed that no grown person has, under a table that goes by age alone and
    /// before any age: the grown person's dose must not stand for a child.
    fn light_for_a_grown_person(self) -> bool {
        let Some(weight) = self.weight.filter(|_| !self.weighs() && self.age.is_none()) else {
            return false;
        };
        let other = self.region.other();
        matches!(dose_by_weight(weight, other), Err(NoWeight::TooLight(_)))
            || odd_for_age(weight, GROWN_MONTHS, other)
    }

    /// Why no one dose follows, if that is so.
    pub fn doubt(self) -> Option<Doubt> {
        if self.age_unread {
            return Some(Doubt::AgeUnread);
        }
        if self.weighs() && self.weight_unread {
            return Some(Doubt::WeightUnread);
        }
        if self.light_for_a_grown_person() {
            return Some(Doubt::AgeWanted);
        }
        let weight = self.weight()?;
        match dose_by_weight(weight, self.region) {
            Err(NoWeight::TooLight(_) | NoWeight::TooHeavy(_)) if self.age.is_none() => {
                Some(Doubt::AgeWanted)
            }
            _ => odd_for_age(weight, self.months(), self.region).then_some(Doubt::Odd),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whom(age: &str, weight: &str, region: Region) -> Whom {
        let mut whom = Whom::default().under(region);
        whom.read(&Typed { age: age.into(), months: false, weight: weight.into() });
        whom
    }

    fn dose_of(whom: Whom) -> Option<(u64, u64)> {
        whom.dose().map(|dose| (dose.low.raw(), dose.high.raw()))
    }

    #[test]
    fn no_dose_stands_while_it_is_not_known_for_whom() {
        let cases = [
            ("1O", "", Region::Uk, Doubt::AgeUnread),
            ("1O", "20", Region::Australia, Doubt::AgeUnread),
            ("5", "2O", Region::Australia, Doubt::WeightUnread),
            ("", "4", Region::Australia, Doubt::AgeWanted),
            ("", "700", Region::Australia, Doubt::AgeWanted),
        ];
        for (age, weight, region, doubt) in cases {
            let whom = whom(age, weight, region);
            assert_eq!((whom.doubt(), whom.dose()), (Some(doubt), None), "{age:?} {weight:?}");
        }
        assert_eq!(dose_of(whom("1", "4", Region::Australia)), Some((100, 100)), "by age");
    }

    #[test]
    fn a_weight_counts_only_where_the_table_goes_by_weight() {
        for weight in ["70", "7O", "700"] {
            let whom = whom("", weight, Region::Australia).under(Region::Uk);
            assert_eq!((whom.doubt(), whom.said()), (None, false), "{weight}");
            assert_eq!(dose_of(whom), Some((500, 500)), "{weight}");
            assert_eq!(whom.weight(), None);
        }
        for weight in ["4", "7", "20"] {
            let whom = whom("", weight, Region::Australia).under(Region::Uk);
            assert_eq!(whom.doubt(), Some(Doubt::AgeWanted), "a child’s weight: {weight}");
        }
        let back = whom("", "20", Region::Uk).under(Region::Australia);
        assert_eq!(back.weight(), Some(Mass::kg(20)));
    }

    #[test]
    fn weight_and_age_apart_leave_both_doses() {
        let odd = whom("5", "125", Region::Australia);
        assert_eq!(odd.doubt(), Some(Doubt::Odd));
        assert_eq!(dose_of(odd), Some((200, 500)));
    }

    #[test]
    fn an_age_that_the_case_knows_is_not_said_here() {
        let known = Whom { age: Some((14, true)), ..Whom::default() };
        assert!(!known.said() && !known.under(Region::Australia).said());
        assert!(Whom { build: Some(Build::Adult), ..known }.said());
        assert!(Whom { chosen: Some(Volume::ul(300)), ..known }.said());
        assert!(whom("14", "", Region::Uk).said() && whom("1O", "", Region::Uk).said());
        // Typed and taken away again, nothing was said.
        assert!(!whom("", "", Region::Uk).said());
    }

    #[test]
    fn small_is_the_dose_of_the_small_only_where_it_is_asked() {
        let small = |age, region| Whom { build: Some(Build::Small), ..whom(age, "", region) };
        assert_eq!(dose_of(small("14", Region::Uk)), Some((300, 300)));
        assert!(small("14", Region::Uk).small() && !small("5", Region::Uk).small());
        assert!(!small("14", Region::Australia).small());
    }
}

//! The dose of adrenaline: how much, for whom, and who says so.

use super::Sheet;
use super::whom::{Doubt, Whom};
use crate::care::anaphylaxis::Dose;
use crate::measure::Volume;
use crate::protocol::Id;
use crate::ui::parts::{Figure, Figures, Finding, Item, Note, Segment, Tone, Why};
use crate::ui::words::{anaphylaxis as words_of, numbers, protocol as values, sheet as said};
use leptos::prelude::*;

/// What is to be given next: by the table, or as before when nothing else was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Next {
    /// By the table, or the dose before; `None` while it is not known for whom.
    pub dose: Option<Dose>,
    /// The one volume; `None` while there is no dose or a range is not decided.
    pub volume: Option<Volume>,
    /// Whether it is the dose before.
    pub before: bool,
    /// Why no one dose follows from what was typed.
    pub doubt: Option<Doubt>,
}

impl Next {
    /// The next dose for somebody who had `last` before.
    fn of(whom: Whom, last: Option<Volume>) -> Self {
        let doubt = whom.doubt();
        let Some(by_table) = whom.dose() else {
            return Self { dose: None, volume: None, before: false, doubt };
        };
        let of_table = Self { dose: Some(by_table), volume: None, before: false, doubt };
        // After a reload nobody's age is known any more, but what they were given is.
        match last.filter(|last| !whom.said() && *last != by_table.high) {
            Some(last) => Self {
                dose: Some(Dose { low: last, high: last }),
                volume: Some(last),
                before: true,
                doubt,
            },
            None if by_table.low == by_table.high => {
                Self { volume: Some(by_table.low), ..of_table }
            }
            None => {
                let fits = |chosen: &Volume| [by_table.low, by_table.high].contains(chosen);
                Self { volume: whom.chosen.or(last).filter(fits), ..of_table }
            }
        }
    }

    /// What is wanting before a dose can be taken down.
    pub fn why_not(&self) -> Option<&'static str> {
        let why = match self.doubt {
            Some(Doubt::AgeUnread) => said::age_wrong(),
            Some(Doubt::WeightUnread) => said::weight_wrong(),
            Some(Doubt::AgeWanted) => said::age_missing(),
            Some(Doubt::Odd) | None => said::which_missing(),
        };
        self.volume.is_none().then_some(why)
    }

    /// For whom it is, in words; `None` while that is not known.
    fn note(&self, whom: Whom) -> Option<String> {
        let for_whom = if self.before { said::as_before().to_owned() } else { named(whom) };
        self.dose.map(|dose| said::dose_note(dose, &for_whom))
    }
}

impl Sheet {
    /// What is to be given next, tracked.
    pub(super) fn next(self) -> Next {
        let last = self.reaction().doses().last().map(|(_, volume)| *volume);
        Next::of(self.whom.get(), last)
    }
}

/// For whom the dose by the table is.
fn named(whom: Whom) -> String {
    let weight = whom.weight().filter(|_| whom.weighed());
    said::whom(whom.age, weight, whom.small(), whom.region)
}

/// The dose of the other table where it says otherwise of the same patient.
fn other(whom: Whom) -> Option<Dose> {
    let theirs = whom.under(whom.region.other());
    // Only one table asks for the build; for a small person the other's row would mislead.
    // And with a weight alone, the table by age would be read for a grown person.
    let weight = whom.weight().or(theirs.weight());
    let unlike = whom.small() || theirs.small() || (whom.age.is_none() && weight.is_some());
    let unsure = unlike || whom.doubt().is_some() || theirs.doubt().is_some();
    let (ours, theirs) = (whom.dose()?, theirs.dose()?);
    (!unsure && ours != theirs).then_some(theirs)
}

/// The dose, large, with the way and what the other table says.
#[component]
pub fn DoseCard(sheet: Sheet) -> impl IntoView {
    let next = Memo::new(move |_| sheet.next());
    let other = Memo::new(move |_| {
        let whom = sheet.whom.get();
        other(whom).map(|theirs| said::other(whom.region.other(), theirs))
    });
    let range = move || next.get().dose.filter(|dose| dose.low != dose.high);
    view! {
        <Figures>
            <Figure
                label=said::route()
                number=Signal::derive(move || {
                    next.read().dose.map_or_else(|| said::no_dose_label().to_owned(), said::dose)
                })
                unit=Signal::derive(move || next.read().dose.map(|_| said::ml().to_owned()))
                note=Signal::derive(move || next.read().note(sheet.whom.get()))
                wide=true
            />
        </Figures>
        {move || {
            let next = next.get();
            let text = match (next.doubt?, next.why_not()) {
                (Doubt::Odd, _) => said::odd().to_owned(),
                (_, why) => said::no_dose(why.unwrap_or_default()),
            };
            Some(view! { <Note tone=Tone::Caution alert=true>{text}</Note> })
        }}
        {move || {
            range()
                .map(|dose| {
                    let items = [dose.low, dose.high]
                        .map(|volume| Item::new(volume, numbers::volume_named(volume)))
                        .to_vec();
                    view! {
                        <Segment
                            legend=said::which()
                            items
                            value=Signal::derive(move || next.read().volume)
                            on_choose=move |volume| {
                                sheet.say(|whom| whom.chosen = Some(volume));
                            }
                        />
                    }
                })
        }}
        {move || other.get().map(|text| view! { <Note>{text}</Note> })}
    }
}

/// Who says so.
#[component]
pub fn Sources(sheet: Sheet) -> impl IntoView {
    let findings = Signal::derive(move || {
        let whom = sheet.whom.get();
        let source = crate::protocol::adrenaline::source(whom.region);
        // The dose before is nobody's row of the table.
        let by_table = Some(sheet.next()).filter(|next| !next.before).and_then(|next| next.dose);
        let (figure, setting) = match by_table {
            Some(dose) => (format!("{} {}", said::dose(dose), said::ml()), named(whom)),
            None => (said::no_dose_label().to_owned(), words_of::region(whom.region).to_owned()),
        };
        let dose = Finding {
            figure,
            setting,
            citation: source.citation.to_owned(),
            status: values::status(crate::protocol::Basis::Published(source)).to_owned(),
        };
        std::iter::once(dose)
            .chain(values::findings(Id::AdrenalineRepeat))
            .chain(values::findings(Id::RefractoryDoses))
            .collect::<Vec<_>>()
    });
    view! { <Why summary=said::sources() findings /> }
}

#[cfg(test)]
mod tests {
    use super::super::whom::Typed;
    use super::*;
    use crate::care::anaphylaxis::Build;
    use crate::protocol::Region;

    fn whom(age: &str, weight: &str, region: Region) -> Whom {
        let mut whom = Whom::default().under(region);
        whom.read(&Typed { age: age.into(), months: false, weight: weight.into() });
        whom
    }

    const GIVEN: Option<Volume> = Some(Volume::ul(300));

    #[test]
    fn no_number_stands_large_while_it_is_not_known_for_whom() {
        for (whom, why) in [
            (whom("1O", "", Region::Uk), said::age_wrong()),
            (whom("", "2O", Region::Australia), said::weight_wrong()),
            (whom("", "4", Region::Australia), said::age_missing()),
        ] {
            for last in [None, GIVEN] {
                let next = Next::of(whom, last);
                assert_eq!((next.dose, next.volume, next.note(whom)), (None, None, None), "{why}");
                assert_eq!(next.why_not(), Some(why));
            }
        }
    }

    #[test]
    fn two_doses_are_to_be_chosen_from() {
        let infant = Whom { age: Some((3, false)), ..Whom::default() };
        for whom in [infant, whom("5", "125", Region::Australia)] {
            let next = Next::of(whom, None);
            assert_eq!((next.volume, next.why_not()), (None, Some(said::which_missing())));
            let high = next.dose.map(|dose| dose.high);
            let chosen = Next::of(Whom { chosen: high, ..whom }, None);
            assert_eq!((chosen.volume, chosen.why_not()), (high, None));
        }
    }

    #[test]
    fn the_dose_before_stands_until_something_is_said_of_the_patient() {
        let known = Whom { age: Some((14, true)), ..Whom::default() };
        for unsaid in [Whom::default(), known, known.under(Region::Australia)] {
            let next = Next::of(unsaid, GIVEN);
            assert_eq!((next.volume, next.before), (GIVEN, true));
            assert!(next.note(unsaid).is_some_and(|note| note.contains(said::as_before())));
            assert_eq!(Next::of(unsaid, None).volume, Some(Volume::ul(500)));
        }
        let grown = Whom { build: Some(Build::Adult), ..known };
        let next = Next::of(grown, GIVEN);
        assert_eq!((next.volume, next.before), (Some(Volume::ul(500)), false));
        let small = Whom { build: Some(Build::Small), ..known };
        let next = Next::of(small, GIVEN);
        assert_eq!((next.volume, next.before), (GIVEN, false));
        assert!(next.note(small).is_some_and(|note| !note.contains(said::adult())));
    }

    #[test]
    fn the_other_table_is_shown_where_it_differs_of_the_same_patient() {
        let five = whom("5", "", Region::Uk);
        assert_eq!(other(five).map(|dose| dose.low), Some(Volume::ul(200)));
        assert_eq!(
            other(five.under(Region::Australia)).map(|dose| dose.low),
            Some(Volume::ul(150))
        );
        assert_eq!(other(whom("", "20", Region::Australia)), None);
        assert_eq!(other(whom("", "20", Region::Uk)), None);
        assert_eq!(other(whom("5", "2O", Region::Uk)), None);
        assert_eq!(other(Whom { build: Some(Build::Small), ..whom("14", "", Region::Uk) }), None);
    }
}

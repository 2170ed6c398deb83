//! The dose of adrenaline: how much, for whom, and who says so.

use super::Sheet;
use crate::care::anaphylaxis::{Build, Dose, asks_build, dose};
use crate::measure::Volume;
use crate::protocol::adrenaline::GROWN_MONTHS;
use crate::protocol::{Id, Region};
use crate::ui::parts::{Figure, Figures, Finding, Item, Note, QuantityField, Segment, Why};
use crate::ui::words::{
    anaphylaxis as words_of, numbers, protocol as values, sheet as said, typed,
};
use leptos::prelude::*;

/// Months in a year.
const YEAR: u32 = 12;

/// For whom the dose is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Whom {
    /// Age as typed, and whether in years; without it, a grown person.
    age: Option<(u32, bool)>,
    /// Whether an age was typed that cannot be read: no dose may then be shown as if for it.
    age_unread: bool,
    build: Build,
    region: Region,
    /// The one chosen, where the table prints a range.
    chosen: Option<Volume>,
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

    fn months(self) -> u32 {
        match self.age {
            None => GROWN_MONTHS,
            Some((years, true)) => years.saturating_mul(YEAR),
            Some((months, false)) => months,
        }
    }

    /// The dose by the table in force.
    fn dose(self) -> Dose {
        dose(self.months(), self.build, self.region)
    }
}

/// What is to be given next: by the table, or as before when nothing else was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Next {
    /// By the table, or the dose before.
    pub dose: Dose,
    /// The one volume; `None` while a range is not decided.
    pub volume: Option<Volume>,
    /// Whether it is the dose before.
    pub before: bool,
}

impl Sheet {
    /// What is to be given next, tracked.
    pub(super) fn next(self) -> Next {
        let whom = self.whom.get();
        let by_table = whom.dose();
        if whom.age_unread {
            return Next { dose: by_table, volume: None, before: false };
        }
        let last = self.reaction().doses().last().map(|(_, volume)| *volume);
        // After a reload nobody's age is known any more, but what they were given is.
        match last.filter(|last| {
            whom.age.is_none() && whom.build == Build::Adult && *last != by_table.high
        }) {
            Some(last) => {
                Next { dose: Dose { low: last, high: last }, volume: Some(last), before: true }
            }
            None if by_table.low == by_table.high => {
                Next { dose: by_table, volume: Some(by_table.low), before: false }
            }
            None => {
                let fits = |chosen: &Volume| [by_table.low, by_table.high].contains(chosen);
                Next { dose: by_table, volume: whom.chosen.or(last).filter(fits), before: false }
            }
        }
    }
}

/// The dose, large, with the way and what the other table says.
#[component]
pub fn DoseCard(sheet: Sheet) -> impl IntoView {
    let next = Memo::new(move |_| sheet.next());
    let note = move || {
        let whom = sheet.whom.get();
        let next = next.get();
        let for_whom = if next.before {
            said::AS_BEFORE.to_owned()
        } else {
            said::whom(whom.age, whom.region)
        };
        said::dose_note(next.dose, &for_whom)
    };
    let other = Memo::new(move |_| {
        let whom = sheet.whom.get();
        let region = match whom.region {
            Region::Uk => Region::Australia,
            Region::Australia => Region::Uk,
        };
        let theirs = Whom { region, ..whom }.dose();
        // Only one table asks for the build; for a small person the other's row would mislead.
        let same = whom.build == Build::Small || theirs == whom.dose();
        (!same).then(|| said::other(region, theirs))
    });
    let range = move || {
        let next = next.get();
        (next.dose.low != next.dose.high).then_some(next.dose)
    };
    view! {
        <Figures>
            <Figure
                label=said::route()
                number=Signal::derive(move || said::dose(next.read().dose))
                unit=Some(said::ML.to_owned())
                note=Signal::derive(move || Some(note()))
                wide=true
            />
        </Figures>
        {move || {
            range()
                .map(|dose| {
                    let items = [dose.low, dose.high]
                        .map(|volume| Item::new(volume, numbers::volume_named(volume)))
                        .to_vec();
                    view! {
                        <Segment
                            legend=said::WHICH
                            items
                            value=Signal::derive(move || next.read().volume)
                            on_choose=move |volume| {
                                sheet.whom.update(|whom| whom.chosen = Some(volume));
                            }
                        />
                    }
                })
        }}
        {move || other.get().map(|text| view! { <Note>{text}</Note> })}
    }
}

/// Everything that changes the dose, closed until wanted: most patients are grown.
#[component]
pub fn OtherPatient(sheet: Sheet) -> impl IntoView {
    let whom = sheet.whom;
    let age = whom.get_untracked().age;
    let text = RwSignal::new(age.map(|(number, _)| number.to_string()).unwrap_or_default());
    let in_years = RwSignal::new(age.is_none_or(|(_, years)| years));
    let take = move || {
        let typed = typed::field::<u32>(&text.read_untracked());
        let years = in_years.get_untracked();
        whom.update(|whom| {
            whom.age_unread = typed.is_err();
            whom.age = typed.ok().flatten().map(|number| (number, years));
            whom.chosen = None;
        });
    };
    let units = vec![Item::new(true, said::YEARS), Item::new(false, said::MONTHS)];
    let builds = vec![
        Item::new(Build::Adult, said::GROWN),
        Item::new(Build::Small, said::SMALL).hint(said::small()),
    ];
    let regions = [Region::Uk, Region::Australia]
        .map(|region| Item::new(region, words_of::region(region)))
        .to_vec();
    let build_asked = Memo::new(move |_| {
        let whom = whom.get();
        asks_build(whom.months(), whom.region)
    });
    view! {
        <details class="more">
            <summary>{said::OTHER_PATIENT}</summary>
            <QuantityField
                label=said::AGE
                value=text
                whole=true
                unit=Signal::derive(move || {
                    Some(if in_years.get() { said::YEARS } else { said::MONTHS }.to_owned())
                })
                error=Signal::derive(move || typed::field::<u32>(&text.read()).err())
                on_input=move |typed| {
                    text.set(typed);
                    take();
                }
            />
            <Segment
                legend=said::AGE_UNIT
                items=units
                value=Signal::derive(move || Some(in_years.get()))
                on_choose=move |years| {
                    in_years.set(years);
                    take();
                }
            />
            {move || {
                let builds = builds.clone();
                build_asked
                    .get()
                    .then(|| {
                        view! {
                            <Segment
                                legend=said::BUILD
                                items=builds
                                value=Signal::derive(move || Some(whom.read().build))
                                on_choose=move |build| whom.update(|whom| whom.build = build)
                            />
                        }
                    })
            }}
            <Segment
                legend=said::REGION
                items=regions
                value=Signal::derive(move || Some(whom.read().region))
                on_choose=move |region| {
                    whom.update(|whom| {
                        whom.region = region;
                        whom.chosen = None;
                    });
                }
            />
        </details>
    }
}

/// Who says so.
#[component]
pub fn Sources(sheet: Sheet) -> impl IntoView {
    let findings = Signal::derive(move || {
        let whom = sheet.whom.get();
        let source = crate::protocol::adrenaline::source(whom.region);
        let dose = Finding {
            figure: format!("{} {}", said::dose(whom.dose()), said::ML),
            setting: said::whom(whom.age, whom.region),
            citation: source.citation.to_owned(),
            status: values::status(crate::protocol::Basis::Published(source)).to_owned(),
        };
        std::iter::once(dose)
            .chain(values::findings(Id::AdrenalineRepeat))
            .chain(values::findings(Id::RefractoryDoses))
            .collect::<Vec<_>>()
    });
    view! { <Why summary=said::SOURCE findings /> }
}

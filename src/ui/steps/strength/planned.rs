//! Planned work: filler, dose within the range, deposits, strength.

use super::equipment::Equipment;
use super::offers::{Strengths, strength};
use super::set::SetField;
use super::urgent::MarkOfPoint;
use super::vials::Supplies;
use super::ways::{CannotMake, ChosenWay, OtherWays, Ways, why_not};
use crate::care::dilution::Wanted;
use crate::care::dose::{Planned, planned};
use crate::care::situation::Aim;
use crate::case::{Event, Overridden, Step};
use crate::measure::{Strength, Units, Volume};
use crate::protocol::{Id, Protocol, Quantity, tenfold_slip};
use crate::ui::parts::{
    Figure, Figures, Foot, GoButton, Item, Note, Pair, QuantityField, QuietButton, Segment, Title,
    Tone, Why,
};
use crate::ui::steps::{CaseScreen, ReasonSheet, use_here};
use crate::ui::words::strength as said;
use crate::ui::words::{self, numbers, typed};
use leptos::prelude::*;

/// Where in the range the dose is taken.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Pick {
    Low,
    Middle,
    High,
    Typed,
}

/// What is being decided, before it is recorded.
#[derive(Clone, Copy)]
struct Draft {
    filler: RwSignal<String>,
    /// An odd volume that was looked at again and stands.
    sure: RwSignal<Option<Volume>>,
    pick: RwSignal<Option<Pick>>,
    typed: RwSignal<String>,
}

impl Draft {
    /// As it was recorded before.
    fn of(filler: Option<(Volume, Units)>) -> Self {
        Self {
            filler: RwSignal::new(
                filler.map(|(volume, _)| numbers::typed(&volume)).unwrap_or_default(),
            ),
            sure: RwSignal::new(filler.map(|(volume, _)| volume)),
            pick: RwSignal::new(filler.map(|_| Pick::Typed)),
            typed: RwSignal::new(filler.map(|(_, dose)| numbers::typed(&dose)).unwrap_or_default()),
        }
    }

    fn volume(self) -> Option<Volume> {
        typed::field::<Volume>(&self.filler.read()).ok().flatten()
    }

    fn dose(self, range: &Planned) -> Option<Units> {
        match self.pick.get()? {
            Pick::Low => Some(range.low),
            Pick::Middle => Some(middle(range)),
            Pick::High => Some(range.high),
            Pick::Typed => typed::field::<Units>(&self.typed.read()).ok().flatten(),
        }
    }
}

/// The middle of the range, to a whole unit.
fn middle(range: &Planned) -> Units {
    let middle = u64::midpoint(range.low.raw(), range.high.raw());
    Units::whole(middle / Units::PER)
}

/// The dose of planned work.
#[component]
pub fn PlannedDose() -> impl IntoView {
    let here = use_here();
    let before = here.now();
    let id = match before.way {
        Some((_, Some(Aim::All))) => Id::AllStrength,
        _ => Id::PartStrength,
    };
    let draft = Draft::of(before.filler);
    let earlier = before.preparation.as_ref().map(|made| &made.plan);
    let vials = RwSignal::new(before.vials_left());
    let range = Memo::new(move |_| {
        let case = here.case();
        let protocol = &case.protocol;
        planned(draft.volume()?, strength(protocol, id), protocol.bolus, protocol)
    });
    let dose = Memo::new(move |_| draft.dose(&range.get()?));
    let method = earlier.map(|plan| plan.method().clone());
    let ways = Ways::of(here, vials, method, move |protocol| {
        Some((strength(protocol, id), Wanted::Dose(dose.get()?)))
    });
    let otherwise = RwSignal::new(false);
    let make = move || {
        let (volume, dose) = (untrack(|| draft.volume()), dose.get_untracked());
        let (Some((volume, dose)), Some(plan)) = (volume.zip(dose), ways.chosen.get_untracked())
        else {
            return;
        };
        if here.now().filler != Some((volume, dose)) {
            here.record(Event::Filler { volume, dose });
        }
        super::prepare(here, plan);
    };
    let against = Memo::new(move |_| {
        let (range, dose) = range.get().zip(dose.get())?;
        let outside = dose < range.low || dose > range.high;
        outside.then(|| said::outside_range(dose, range.low, range.high))
    });
    let press = move |()| {
        let case = here.now();
        // The next round of a dose that was overridden is not asked about again.
        let known = case.overrode(Overridden::Dose)
            && case.filler.map(|(_, dose)| dose) == dose.get_untracked();
        if against.get_untracked().is_some() && !known {
            otherwise.set(true);
        } else {
            make();
        }
    };
    let missing = Signal::derive(move || {
        let Some(volume) = draft.volume() else { return Some(said::filler_wanted().to_owned()) };
        if range.get().is_some_and(|range| range.questioned) && draft.sure.get() != Some(volume) {
            Some(said::confirm_filler().to_owned())
        } else if dose.get().is_none() {
            Some(said::dose_wanted().to_owned())
        } else {
            ways.blocked().map(why_not).or_else(|| ways.mixed(&here.case()))
        }
    });
    let eyebrow = Signal::derive(move || {
        let case = here.case();
        Some(said::round(case.treatment.rounds().len() + 1, case.treatment.units()))
    });
    view! {
        <CaseScreen step=Step::Strength fraction=0.5>
            <Title eyebrow arrive=true>{said::filler()}</Title>
            <FillerField draft range />
            <Show when=move || range.read().is_some()>
                <Doses draft range />
                {move || {
                    against.get().map(|words| view! { <Note tone=Tone::Caution>{words}</Note> })
                }}
                <Laid dose ways id />
                <Strengths id />
            </Show>
            <CannotMake ways id />
            <Show when=move || dose.read().is_some()>
                <Making dose ways vials />
            </Show>
            <details class="more">
                <summary>{said::smaller()}</summary>
                <SetField id=Id::Bolus />
            </details>
            <Equipment />
            <p class="follow">{words::app::follow()}</p>
            <ReasonSheet
                open=otherwise
                what=Overridden::Dose
                against=Signal::derive(move || against.get().unwrap_or_default())
                then=move |()| make()
            />
            <Foot slot>
                <GoButton on_press=press why_not=missing>
                    {move || {
                        ways.chosen
                            .get()
                            .map_or_else(|| said::make_label().to_owned(), |plan| said::make(plan.strength()))
                    }}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// How the dose is made: way, vials.
#[component]
fn Making(dose: Memo<Option<Units>>, ways: Ways, vials: RwSignal<Option<u32>>) -> impl IntoView {
    view! {
        <ChosenWay ways />
        <MarkOfPoint ways />
        <Supplies ways vials dose=Signal::from(dose) />
        <OtherWays ways />
    }
}

/// The volume of filler, asked again when it is odd.
#[component]
fn FillerField(draft: Draft, range: Memo<Option<Planned>>) -> impl IntoView {
    let here = use_here();
    let odd = move || {
        let volume = draft.volume()?;
        let questioned = range.get()?.questioned && draft.sure.get() != Some(volume);
        questioned.then(|| {
            let case = here.case();
            let usual = usual_filler(&case.protocol);
            let meant = tenfold_slip(volume.raw(), usual).map(Volume::ul);
            let words = match meant {
                Some(meant) => typed::slip(Quantity::Volume(meant)),
                None => said::much_filler(volume, &case.protocol),
            };
            view! {
                <Note tone=Tone::Caution>{words}</Note>
                <Pair>
                    {meant
                        .map(|meant| {
                            view! {
                                <QuietButton on_press=move |()| {
                                    draft.filler.set(numbers::typed(&meant));
                                }>{numbers::volume_named(meant)}</QuietButton>
                            }
                        })}
                    <QuietButton on_press=move |()| {
                        draft.sure.set(Some(volume));
                    }>{said::sure()}</QuietButton>
                </Pair>
            }
        })
    };
    view! {
        <QuantityField
            label=said::filler_volume()
            value=draft.filler
            unit=Some(said::ml().to_owned())
            hint=Some(said::filler_hint().to_owned())
            error=Signal::derive(move || typed::field::<Volume>(&draft.filler.read()).err())
            on_input=move |text| draft.filler.set(text)
        />
        {odd}
    }
}

/// From the smallest deposit to the most that is not questioned.
fn usual_filler(protocol: &Protocol) -> std::ops::RangeInclusive<u64> {
    Protocol::entry(Id::Bolus).low.raw()..=protocol.filler_question.raw()
}

/// The range and the dose in it.
#[component]
fn Doses(draft: Draft, range: Memo<Option<Planned>>) -> impl IntoView {
    let here = use_here();
    let items = Signal::derive(move || {
        let Some(range) = range.get() else { return Vec::new() };
        vec![
            Item::new(Pick::Low, said::low()).hint(numbers::units_named(range.low)),
            Item::new(Pick::Middle, said::middle()).hint(numbers::units_named(middle(&range))),
            Item::new(Pick::High, said::high()).hint(numbers::units_named(range.high)),
            Item::new(Pick::Typed, said::other()),
        ]
    });
    let slip = move || {
        let range = range.get()?;
        let dose = typed::field::<Units>(&draft.typed.read()).ok().flatten()?;
        let meant = Units::milli(tenfold_slip(dose.raw(), range.low.raw()..=range.high.raw())?);
        Some(view! {
            <Note tone=Tone::Caution>{typed::slip(Quantity::Units(meant))}</Note>
            <QuietButton on_press=move |()| {
                draft.typed.set(numbers::typed(&meant));
            }>{numbers::units_named(meant)}</QuietButton>
        })
    };
    let field = move || {
        (draft.pick.get() == Some(Pick::Typed)).then(|| {
            view! {
                <QuantityField
                    label=said::dose_typed()
                    value=draft.typed
                    unit=Some(said::units().to_owned())
                    error=Signal::derive(move || typed::field::<Units>(&draft.typed.read()).err())
                    on_input=move |text| draft.typed.set(text)
                />
                {slip}
            }
        })
    };
    view! {
        <Figures>
            <Figure
                label=said::range()
                number=Signal::derive(move || {
                    range
                        .get()
                        .map_or_else(String::new, |range| numbers::units_range(range.low, range.high))
                })
                unit=Some(said::units().to_owned())
                note=Signal::derive(move || Some(said::per_filler(&here.case().protocol)))
                wide=true
            />
        </Figures>
        <Why summary=said::reports_label() findings=said::reports()>
            <p>{said::reports_spread()}</p>
        </Why>
        <Segment
            legend=said::dose()
            items
            value=draft.pick
            on_choose=move |pick| draft.pick.set(Some(pick))
        />
        {field}
    }
}

/// How the dose is laid: volume and deposits.
#[component]
fn Laid(dose: Memo<Option<Units>>, ways: Ways, id: Id) -> impl IntoView {
    let here = use_here();
    view! {
        {move || {
            let case = here.case();
            let protocol = &case.protocol;
            let made = ways.chosen.get().map(|plan| plan.strength());
            let strength: Strength = made.unwrap_or_else(|| strength(protocol, id));
            let volume = strength.volume_of(dose.get()?)?;
            let bolus = protocol.bolus;
            let count = volume.needs(bolus);
            let last = volume.saturating_sub(bolus.times(count.saturating_sub(1)));
            Some(
                view! {
                    <Figures>
                        <Figure
                            label=said::volume()
                            number=numbers::volume(volume)
                            unit=Some(said::ml().to_owned())
                        />
                        <Figure
                            label=said::deposits_label()
                            number=count.to_string()
                            note=Some(said::deposits(bolus, last))
                        />
                    </Figures>
                },
            )
        }}
    }
}

//! A round of an occlusion in figures, by both routes, and what would bring it into the range.

use super::set::SetField;
use crate::care::dose::{Remedy, Standing, Urgent};
use crate::case::Event;
use crate::measure::{Area, Units};
use crate::plane::Lattice;
use crate::protocol::{Id, Quantity};
use crate::ui::parts::{Figure, Figures, Item, Note, QuietButton, Segment, Tone, Why};
use crate::ui::steps::use_here;
use crate::ui::words::strength as said;
use crate::ui::words::{self, numbers, rounds};
use leptos::prelude::*;

/// The figures, the doubts and the remedies of a round.
#[component]
pub fn RoundFigures(
    /// The round.
    dose: Urgent,
    /// The surface that it is for.
    area: Area,
) -> impl IntoView {
    let here = use_here();
    let protocol = here.now().protocol.clone();
    let units = || Some(said::units().to_owned());
    let standing = rounds::standing(dose.standing, &protocol);
    let tone = match dose.standing {
        Standing::Within => Tone::Plain,
        Standing::Below | Standing::Above | Standing::BelowConsensus => Tone::Caution,
    };
    let disagree = dose.disagree.then(|| said::disagree(&dose));
    let by_areas = dose.by_areas.map(|by_areas: Units| {
        view! {
            <Figure
                label=said::by_areas()
                number=numbers::units(by_areas)
                unit=units()
                note=Some(said::per_facial_area(&protocol))
            />
        }
    });
    view! {
        <Figures>
            <Figure
                label=said::by_grid()
                number=numbers::units(dose.by_grid)
                unit=units()
                note=Some(said::grid(area, protocol.spacing, dose.plan.bolus))
                wide=true
            />
            <Figure label=said::points() number=dose.plan.points.to_string() />
            <Figure
                label=said::volume()
                number=numbers::volume(dose.plan.volume())
                unit=Some(said::ml().to_owned())
            />
            {by_areas}
            <Figure
                label=said::by_published()
                number=numbers::units(dose.by_published)
                unit=units()
                note=Some(said::per_area(&protocol))
            />
        </Figures>
        <Note tone=tone>{standing}</Note>
        {(!dose.remedies.is_empty()).then(|| view! { <p class="hint">{said::into_range()}</p> })}
        {dose.remedies.into_iter().map(|remedy| view! { <Remedied remedy /> }).collect_view()}
        {disagree
            .map(|words| {
                view! {
                    <Note tone=Tone::Caution heading=Some(said::disagree_label().to_owned())>
                        {words}
                    </Note>
                }
            })}
    }
}

/// A remedy as a button.
#[component]
fn Remedied(remedy: Remedy) -> impl IntoView {
    let here = use_here();
    let (id, quantity) = match remedy {
        Remedy::Spacing(spacing) => (Id::Spacing, Quantity::Length(spacing)),
        Remedy::Bolus(bolus) => (Id::Bolus, Quantity::Volume(bolus)),
        Remedy::Strength(strength) => (Id::UrgentStrength, Quantity::Strength(strength)),
    };
    view! {
        <QuietButton on_press=move |()| {
            here.record(Event::Set(id, quantity));
        }>{rounds::remedy(remedy)}</QuietButton>
    }
}

/// What was found with fewer and with more units.
#[component]
pub fn Evidence() -> impl IntoView {
    let findings = [
        words::protocol::findings(Id::RoundLow),
        words::protocol::findings(Id::RoundHigh),
        words::protocol::findings(Id::LeastUnits),
        words::protocol::findings(Id::AreaUnits),
        words::protocol::findings(Id::PerArea),
    ]
    .concat();
    view! {
        <Why summary=said::more_is_not_better() findings>
            <p>{said::evidence()}</p>
        </Why>
    }
}

/// How the points lie: in squares or in triangles.
#[component]
fn Lattices() -> impl IntoView {
    let here = use_here();
    let items: Vec<Item<Lattice>> = [Lattice::Square, Lattice::Hexagonal]
        .map(|lattice| Item::new(lattice, words::outline::lattice(lattice)))
        .to_vec();
    // A grid without an outline is a count of squares.
    let drawn = move || here.case().territory().is_some_and(|skin| skin.outline().is_some());
    view! {
        <Show when=drawn>
            <Segment
                legend=said::lattice()
                items=items.clone()
                value=Signal::derive(move || Some(here.case().protocol.lattice))
                on_choose=move |lattice| here.record(Event::Lattice(lattice))
            />
        </Show>
    }
}

/// How the points lie, their spacing, and the volume at each, typed.
#[component]
pub fn GridFields() -> impl IntoView {
    view! {
        <details class="more">
            <summary>{said::grid_label()}</summary>
            <Lattices />
            <SetField id=Id::Spacing />
            <SetField id=Id::Margin />
            <SetField id=Id::Bolus />
        </details>
    }
}

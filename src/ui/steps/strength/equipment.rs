//! "Not what I have": the vial and the syringe in the hand.

use super::set::SetField;
use crate::care::dilution::Syringe;
use crate::case::Event;
use crate::measure::{Units, Volume};
use crate::protocol::diluent::Diluent;
use crate::protocol::strengths::VIALS;
use crate::protocol::{Id, Quantity};
use crate::ui::parts::{
    Choice, Finding, Item, Note, QuantityField, QuietButton, Segment, Tone, Why,
};
use crate::ui::steps::{Here, use_here};
use crate::ui::words::strength as said;
use crate::ui::words::{self, dilution, numbers, typed};
use leptos::prelude::*;

/// Vial and syringe, closed until wanted.
#[component]
pub fn Equipment() -> impl IntoView {
    view! {
        <details class="more">
            <summary>{said::other_things()}</summary>
            <VialFields />
            <SyringeFields />
            <DiluentField />
        </details>
    }
}

#[component]
fn VialFields() -> impl IntoView {
    let here = use_here();
    let items: Vec<Item<Units>> =
        VIALS.iter().map(|(units, _)| Item::new(*units, numbers::units(*units))).collect();
    let labels: Vec<Finding> = VIALS
        .iter()
        .map(|(units, basis)| Finding {
            figure: numbers::units_named(*units),
            setting: String::new(),
            citation: words::protocol::citation(*basis),
            status: words::protocol::status(*basis).to_owned(),
        })
        .collect();
    view! {
        <Segment
            legend=said::vial()
            items
            value=Signal::derive(move || Some(here.case().protocol.vial_units))
            on_choose=move |units| here.record(Event::Set(Id::VialUnits, Quantity::Units(units)))
        />
        <Note>{said::powder()}</Note>
        <Why summary=said::why_vials() findings=labels />
        <details class="more">
            <summary>{said::other_vial()}</summary>
            <SetField id=Id::VialUnits />
        </details>
        <SetField id=Id::VialHolds />
    }
}

/// What the powder is dissolved in, with what speaks against it.
#[component]
fn DiluentField() -> impl IntoView {
    let here = use_here();
    let items: Vec<Item<Diluent>> =
        Diluent::ALL.map(|one| Item::new(one, dilution::diluent(one))).to_vec();
    let findings: Vec<Finding> = Diluent::ALL
        .map(|one| Finding {
            figure: dilution::diluent(one),
            setting: String::new(),
            citation: words::protocol::citation(one.basis()),
            status: words::protocol::status(one.basis()).to_owned(),
        })
        .to_vec();
    view! {
        <Choice
            legend=said::diluent()
            items
            value=Signal::derive(move || Some(here.case().diluent))
            on_choose=move |diluent| here.record(Event::Diluent(diluent))
        />
        {move || {
            dilution::diluent_caution(here.case().diluent)
                .map(|caution| view! { <Note tone=Tone::Caution>{caution}</Note> })
        }}
        <Why summary=said::why_diluent() findings />
    }
}

/// Takes a syringe in hand. Size and marks are two values; they are recorded one after the other.
fn take(here: Here, syringe: Syringe) {
    let (holds, marks) = (syringe.capacity(), syringe.interval());
    here.record(Event::Set(Id::SyringeHolds, Quantity::Volume(holds)));
    here.record(Event::Set(Id::SyringeMarks, Quantity::Volume(marks)));
}

#[component]
fn SyringeFields() -> impl IntoView {
    let here = use_here();
    let items: Vec<Item<Syringe>> =
        Syringe::common().map(|syringe| Item::new(syringe, dilution::syringe(syringe))).collect();
    let in_hand = Signal::derive(move || {
        let case = here.case();
        Syringe::new(case.protocol.syringe_holds, case.protocol.syringe_marks).ok()
    });
    let (holds, marks) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let typed = move || -> Result<Option<Syringe>, String> {
        let (holds, marks) =
            (typed::field::<Volume>(&holds.read())?, typed::field::<Volume>(&marks.read())?);
        let Some((holds, marks)) = holds.zip(marks) else { return Ok(None) };
        let syringe = Syringe::new(holds, marks).map_err(dilution::unfit)?;
        let protocol = &here.case().protocol;
        for (id, volume) in [(Id::SyringeHolds, holds), (Id::SyringeMarks, marks)] {
            protocol.with(id, Quantity::Volume(volume)).map_err(words::protocol::refused)?;
        }
        Ok(Some(syringe))
    };
    let unit = || Some(said::ml().to_owned());
    view! {
        <Choice
            legend=said::syringe()
            items
            value=in_hand
            on_choose=move |syringe| take(here, syringe)
        />
        <details class="more">
            <summary>{said::other_syringe()}</summary>
            <div class="beside">
                <QuantityField
                    label=said::holds()
                    value=holds
                    unit=unit()
                    on_input=move |text| holds.set(text)
                />
                <QuantityField
                    label=said::marks()
                    value=marks
                    unit=unit()
                    error=Signal::derive(move || typed().err())
                    on_input=move |text| marks.set(text)
                />
            </div>
            {move || {
                let syringe = typed().ok().flatten()?;
                Some(
                    view! {
                        <QuietButton on_press=move |()| {
                            take(here, syringe);
                        }>{said::use_syringe()}</QuietButton>
                    },
                )
            }}
        </details>
    }
}

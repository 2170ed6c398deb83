//! Adding a lot: what it is, what is printed on it, how many, where.

use super::draft::{self, Draft};
use super::scan::Code;
use super::{Kit, Sheet};
use crate::kit::{Act, Kind, Place};
use crate::measure::{Typed, Volume};
use crate::protocol::barrel;
use crate::protocol::diluent::Diluent;
use crate::protocol::strengths::VIALS;
use crate::ui::parts::{
    self, Choice, GoButton, Item, Note, QuantityField, QuietButton, Segment, Tone,
};
use crate::ui::printed::Printed;
use crate::ui::words::{self, allergy, dilution, kit as said, numbers, syringe, typed};
use leptos::prelude::*;

/// The sheet over the page.
#[component]
pub fn AddSheet(kit: Kit) -> impl IntoView {
    view! {
        <parts::Sheet
            open=Signal::derive(move || *kit.sheet.read() == Sheet::Add)
            on_close=Callback::new(move |()| kit.close())
            heading=said::add()
            close_label=words::app::close()
        >
            <Form kit />
        </parts::Sheet>
    }
}

#[component]
fn Form(kit: Kit) -> impl IntoView {
    let protocol = untrack(|| kit.desk.protocol());
    let place = kit.place.get_untracked().unwrap_or_default();
    let draft = RwSignal::new(Draft::new(protocol.vial_units, protocol.syringe_holds, place));
    // Whether the user went on with what cannot be read.
    let went_on = RwSignal::new(false);
    let why_not = Signal::derive(move || draft.read().lot().err());
    let same = Memo::new(move |_| {
        let (draft, stock) = (draft.read(), kit.stock.read());
        let found = draft.same(&stock)?;
        Some((found.id, found.lot.clone(), found.at(draft.place)))
    });
    let apart = move |()| {
        if let Ok(lot) = draft.read_untracked().lot() {
            kit.record(Act::Received(Box::new(lot)), said::added());
        }
    };
    let keep = move |()| {
        let Ok(lot) = draft.read_untracked().lot() else { return };
        match same.get_untracked() {
            Some((id, ..)) => {
                let (place, count) = (lot.place, lot.count);
                kit.record(Act::Delivered { lot: id, place, count }, said::added());
            }
            None => kit.record(Act::Received(Box::new(lot)), said::added()),
        }
    };
    let already = move || {
        let (_, lot, there) = same.get()?;
        let place = draft.read().place;
        Some(view! { <Note tone=Tone::Caution>{said::same(&lot, there, place)}</Note> })
    };
    let word = move || {
        let more = draft.read().lot().ok().map(|lot| lot.count);
        match same.get().zip(more) {
            Some(((_, _, there), more)) => said::add_to(there, more),
            None => said::keep().to_owned(),
        }
    };
    view! {
        <Code kit draft />
        <What draft />
        <Printed
            batch=Signal::derive(move || draft.read().batch.clone())
            expiry=Signal::derive(move || draft.read().expiry.clone())
            on_batch=move |text| draft.update(|draft| draft.batch = text)
            on_expiry=move |text| draft.update(|draft| draft.expiry = text)
            batch_hint=said::batch_hint()
            undated=said::undated_why()
            went_on
        />
        <Amount draft went_on />
        {already}
        <GoButton on_press=keep why_not on_refused=move |()| went_on.set(true)>
            {word}
        </GoButton>
        {move || {
            (same.read().is_some() && why_not.read().is_none())
                .then(|| view! { <QuietButton on_press=apart>{said::apart()}</QuietButton> })
        }}
    }
}

/// What it is.
#[component]
fn What(draft: RwSignal<Draft>) -> impl IntoView {
    let kinds = Kind::ALL.map(|kind| Item::new(kind, said::kind(kind))).to_vec();
    let kind = Memo::new(move |_| draft.read().kind);
    let more = move || match kind.get() {
        Kind::Hyaluronidase => Some(view! { <Enzyme draft /> }.into_any()),
        Kind::Diluent => Some(view! { <Dissolving draft /> }.into_any()),
        Kind::Syringe => Some(view! { <Syringe draft /> }.into_any()),
        Kind::Needle | Kind::Adrenaline | Kind::Aspirin => None,
    };
    view! {
        <div class="kit-grid kinds">
            <Choice
                legend=said::what()
                items=kinds
                value=Signal::derive(move || Some(kind.get()))
                on_choose=move |kind| draft.update(|draft| draft.kind = kind)
            />
        </div>
        {more}
    }
}

/// One of the usual sizes, or another that is typed.
#[component]
fn Size<T: Typed + Clone + PartialEq + Send + Sync + 'static>(
    draft: RwSignal<Draft>,
    legend: &'static str,
    /// The usual ones.
    usual: Vec<Item<Option<T>>>,
    /// The one chosen; none is another.
    chosen: fn(&mut Draft) -> &mut Option<T>,
    /// What is asked for the other one.
    label: &'static str,
    unit: &'static str,
    /// What is typed for it.
    written: fn(&mut Draft) -> &mut String,
) -> impl IntoView {
    let items: Vec<_> = usual.into_iter().chain([Item::new(None, said::other())]).collect();
    let value = Signal::derive(move || chosen(&mut draft.get()).clone());
    let text = Signal::derive(move || written(&mut draft.get()).clone());
    let other = Memo::new(move |_| value.read().is_none());
    view! {
        <div class="kit-grid narrow">
            <Choice
                legend
                items
                value=Signal::derive(move || Some(value.get()))
                on_choose=move |one| draft.update(|draft| *chosen(draft) = one)
            />
        </div>
        {move || {
            other
                .get()
                .then(|| {
                    view! {
                        <QuantityField
                            label
                            value=text
                            unit=Some(unit.to_owned())
                            error=Signal::derive(move || typed::field::<T>(&text.read()).err())
                            on_input=move |text| draft.update(|draft| *written(draft) = text)
                        />
                    }
                })
        }}
    }
}

#[component]
fn Enzyme(draft: RwSignal<Draft>) -> impl IntoView {
    let usual = VIALS.iter().map(|(units, _)| Item::new(Some(*units), numbers::units(*units)));
    let species = allergy::SPECIES.map(|one| Item::new(one, allergy::species(one))).to_vec();
    view! {
        <Size
            draft
            legend=said::strength()
            usual=usual.collect()
            chosen=|draft| &mut draft.units
            label=said::units()
            unit=syringe::units()
            written=|draft| &mut draft.other_units
        />
        <div class="kit-grid">
            <Choice
                legend=words::app::allergy::species()
                items=species
                value=Signal::derive(move || Some(draft.read().species))
                on_choose=move |species| draft.update(|draft| draft.species = species)
            />
        </div>
    }
}

#[component]
fn Dissolving(draft: RwSignal<Draft>) -> impl IntoView {
    let items = Diluent::ALL.map(|one| Item::new(one, dilution::diluent(one))).to_vec();
    view! {
        <Choice
            legend=said::which_diluent()
            items
            value=Signal::derive(move || Some(draft.read().diluent))
            on_choose=move |diluent| draft.update(|draft| draft.diluent = diluent)
        />
        <QuantityField
            label=said::holds()
            value=Signal::derive(move || draft.read().holds.clone())
            unit=Some(syringe::ml().to_owned())
            error=Signal::derive(move || typed::field::<Volume>(&draft.read().holds).err())
            on_input=move |text| draft.update(|draft| draft.holds = text)
        />
    }
}

#[component]
fn Syringe(draft: RwSignal<Draft>) -> impl IntoView {
    let usual = barrel::COMMON.iter().map(|(holds, _)| Item::new(Some(*holds), size(*holds)));
    view! {
        <Size
            draft
            legend=said::syringe()
            usual=usual.collect()
            chosen=|draft| &mut draft.syringe
            label=said::syringe_holds()
            unit=syringe::ml()
            written=|draft| &mut draft.other_syringe
        />
    }
}

fn size(holds: Volume) -> String {
    format!("{holds} {}", syringe::ml())
}

/// How many, and where.
#[component]
fn Amount(draft: RwSignal<Draft>, went_on: RwSignal<bool>) -> impl IntoView {
    let places = Place::ALL.map(|place| Item::new(place, said::place(place))).to_vec();
    let wrong = move || {
        let draft = draft.read();
        let typed = !draft.count.trim().is_empty();
        draft::count(&draft.count).err().filter(|_| typed || went_on.get())
    };
    view! {
        <QuantityField
            label=said::how_many()
            value=Signal::derive(move || draft.read().count.clone())
            whole=true
            error=Signal::derive(wrong)
            on_input=move |text| draft.update(|draft| draft.count = text)
        />
        <Segment
            legend=said::put()
            items=places
            value=Signal::derive(move || Some(draft.read().place))
            on_choose=move |place| draft.update(|draft| draft.place = place)
        />
    }
}

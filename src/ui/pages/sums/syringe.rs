//! Which syringe is in the hand.

use super::inputs::Inputs;
use crate::care::dilution::Syringe;
use crate::measure::Volume;
use crate::ui::parts::{Choice, GoButton, Item, QuantityField, Row, Rows, Sheet};
use crate::ui::words::dilution as way;
use crate::ui::words::numbers;
use crate::ui::words::{self, sums as said, typed};
use leptos::prelude::*;

/// The syringe counted with, to be pressed for another.
#[component]
pub fn SyringeRow(inputs: Inputs, picking: RwSignal<bool>) -> impl IntoView {
    let detail =
        Signal::derive(move || Some(inputs.syringe().map_or_else(way::unfit, way::syringe)));
    view! {
        <Rows>
            <Row label=said::syringe() detail on_press=move |()| picking.set(true) />
        </Rows>
    }
}

/// Syringes as found in a clinic, or any other by its size and marks.
#[component]
pub fn Picker(inputs: Inputs, picking: RwSignal<bool>) -> impl IntoView {
    view! {
        <Sheet
            open=picking
            on_close=Callback::new(move |()| picking.set(false))
            heading=said::syringe()
            close_label=words::app::close()
        >
            <Pick inputs picking />
        </Sheet>
    }
}

#[component]
fn Pick(inputs: Inputs, picking: RwSignal<bool>) -> impl IntoView {
    let now = untrack(|| inputs.syringe().ok());
    let common: Vec<Syringe> = Syringe::common().collect();
    // One that is not among the common ones is shown as typed.
    let other = now.is_some_and(|now| !common.contains(&now));
    // `None` stands for another one.
    let chosen = RwSignal::new(Some(now.filter(|_| !other)));
    let shown = |volume: Option<Volume>| {
        RwSignal::new(
            volume.filter(|_| other).map(|volume| numbers::typed(&volume)).unwrap_or_default(),
        )
    };
    let holds = shown(now.map(Syringe::capacity));
    let marks = shown(now.map(Syringe::interval));
    let items: Vec<Item<Option<Syringe>>> = common
        .into_iter()
        .map(|syringe| Item::new(Some(syringe), way::syringe(syringe)))
        .chain([Item::new(None, said::other_syringe())])
        .collect();
    let typed_one = move || -> Result<Option<Syringe>, String> {
        let holds = typed::field::<Volume>(&holds.read())?;
        let marks = typed::field::<Volume>(&marks.read())?;
        match (holds, marks) {
            (Some(holds), Some(marks)) => Syringe::new(holds, marks).map(Some).map_err(way::unfit),
            _ => Ok(None),
        }
    };
    let picked = move || match chosen.get() {
        Some(Some(syringe)) => Ok(Some(syringe)),
        _ => typed_one(),
    };
    let why_not = Signal::derive(move || match picked() {
        Ok(Some(_)) => None,
        Ok(None) => Some(said::type_syringe().to_owned()),
        Err(error) => Some(error),
    });
    let take = move |()| {
        if let Ok(Some(syringe)) = untrack(picked) {
            inputs.take(syringe);
            picking.set(false);
        }
    };
    let error =
        |text: RwSignal<String>| Signal::derive(move || typed::field::<Volume>(&text.read()).err());
    view! {
        <Choice
            legend=said::syringe()
            legend_hidden=true
            items
            value=chosen
            on_choose=move |syringe| chosen.set(Some(syringe))
        />
        {move || {
            (chosen.get() == Some(None))
                .then(|| {
                    view! {
                        <div class="beside">
                            <QuantityField
                                label=said::capacity()
                                value=holds
                                on_input=move |text| holds.set(text)
                                unit=Some(said::ml().to_owned())
                                error=error(holds)
                            />
                            <QuantityField
                                label=said::marks()
                                value=marks
                                on_input=move |text| marks.set(text)
                                unit=Some(said::ml().to_owned())
                                error=error(marks)
                            />
                        </div>
                    }
                })
        }}
        <GoButton on_press=take why_not>
            {said::this_syringe()}
        </GoButton>
    }
}

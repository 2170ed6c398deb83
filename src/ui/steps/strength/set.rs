//! Setting one of the clinic's values for this case alone: typed, looked at, then taken.

use crate::case::Event;
use crate::measure::{Length, Strength, Units, Volume};
use crate::protocol::{Id, Protocol, Quantity};
use crate::ui::parts::{QuantityField, QuietButton, Why};
use crate::ui::steps::use_here;
use crate::ui::words::strength as said;
use crate::ui::words::{self, numbers, typed};
use leptos::prelude::*;

/// A field for one value. What is typed counts only once its button is pressed, since half a number
/// is a number too.
#[component]
pub fn SetField(
    /// Which value.
    id: Id,
) -> impl IntoView {
    let here = use_here();
    let text = RwSignal::new(String::new());
    let read = move || -> Result<Option<Quantity>, String> {
        let Some(quantity) = quantity(id, &text.read())? else { return Ok(None) };
        here.case().protocol.with(id, quantity).map_err(words::protocol::refused)?;
        Ok(Some(quantity))
    };
    let take = move |quantity: Quantity| {
        here.record(Event::Set(id, quantity));
        text.set(String::new());
    };
    view! {
        <QuantityField
            label=words::protocol::value(id)
            value=text
            unit=unit(id).map(str::to_owned)
            hint=Signal::derive(move || {
                let value = numbers::quantity(here.case().protocol.get(id));
                Some(said::in_force(&value))
            })
            error=Signal::derive(move || read().err())
            on_input=move |typed| text.set(typed)
        />
        {move || {
            let quantity = read().ok().flatten()?;
            let value = numbers::quantity(quantity);
            Some(
                view! {
                    <QuietButton on_press=move |()| take(quantity)>
                        {said::use_this(&value)}
                    </QuietButton>
                },
            )
        }}
        <Why
            summary=said::why()
            findings=words::protocol::findings(id)
        />
    }
}

/// Reads text as the kind of quantity that the value is.
fn quantity(id: Id, text: &str) -> Result<Option<Quantity>, String> {
    Ok(match Protocol::entry(id).default {
        Quantity::Units(_) => typed::field::<Units>(text)?.map(Quantity::Units),
        Quantity::Volume(_) => typed::field::<Volume>(text)?.map(Quantity::Volume),
        Quantity::Strength(_) => typed::field::<Strength>(text)?.map(Quantity::Strength),
        Quantity::Length(_) => typed::field::<Length>(text)?.map(Quantity::Length),
        // No other kind is set at this step.
        Quantity::Area(_) | Quantity::Span(_) | Quantity::Count(_) | Quantity::PerMille(_) => None,
    })
}

/// The unit beside the field.
fn unit(id: Id) -> Option<&'static str> {
    match Protocol::entry(id).default {
        Quantity::Units(_) => Some(said::units()),
        Quantity::Volume(_) => Some(said::ml()),
        Quantity::Strength(_) => Some(said::units_per_ml()),
        Quantity::Length(_) => Some(said::mm()),
        _ => None,
    }
}

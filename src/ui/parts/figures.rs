//! Numbers with their names and units.

use super::{MaybeText, Text};
use leptos::prelude::*;

/// A grid of numbers: two in a row, one where the text is large.
#[component]
pub fn Figures(
    /// [`Figure`]s.
    children: Children,
) -> impl IntoView {
    view! { <dl class="figures">{children()}</dl> }
}

/// One number: what it is, how much, of what. Stands in [`Figures`].
#[component]
pub fn Figure(
    /// What it is.
    #[prop(into)]
    label: Text,
    /// How much.
    #[prop(into)]
    number: Text,
    /// Of what.
    #[prop(optional, into)]
    unit: MaybeText,
    /// A remark in small.
    #[prop(optional, into)]
    note: MaybeText,
    /// Whether it takes the whole width and a larger number.
    #[prop(optional)]
    wide: bool,
) -> impl IntoView {
    view! {
        <div class="figure" class:wide=wide>
            <dt>{move || label.get()}</dt>
            <dd>
                <Amount number unit />
                {move || note.get().map(|note| view! { <span class="figure-note">{note}</span> })}
            </dd>
        </div>
    }
}

/// A number and its unit, never torn apart at a line's end.
#[component]
pub fn Amount(
    /// How much.
    #[prop(into)]
    number: Text,
    /// Of what.
    #[prop(optional, into)]
    unit: MaybeText,
) -> impl IntoView {
    view! {
        <span class="amount">
            {move || number.get()}
            {move || {
                unit.get()
                    .map(|unit| view! { <span class="unit">{format!(" {unit}")}</span> })
            }}
        </span>
    }
}

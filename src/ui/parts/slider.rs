//! How strongly something shows, from not at all to wholly.

use super::{Text, fresh_id};
use leptos::prelude::*;

/// A slider from nothing to all, in steps of a tenth.
#[component]
pub fn Slider(
    /// What it sets.
    #[prop(into)]
    label: Text,
    /// 0 to 1.
    #[prop(into)]
    value: Signal<f64>,
    /// Moved.
    #[prop(into)]
    on_change: Callback<f64>,
) -> impl IntoView {
    let id = fresh_id("slider");
    view! {
        <div class="slider">
            <label for=id.clone()>{move || label.get()}</label>
            <input
                id=id
                type="range"
                min="0"
                max="100"
                step="10"
                aria-valuetext=move || format!("{:.0} %", value.get() * 100.0)
                prop:value=move || format!("{:.0}", value.get() * 100.0)
                on:input:target=move |input| {
                    if let Ok(percent) = input.target().value().parse::<f64>() {
                        on_change.run((percent / 100.0).clamp(0.0, 1.0));
                    }
                }
            />
        </div>
    }
}

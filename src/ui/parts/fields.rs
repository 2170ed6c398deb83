//! Typing: quantities with their unit, plain text, and a counter for small whole numbers.

use super::{Icon, MaybeText, Sign, Text, fresh_id};
use leptos::prelude::*;

/// A quantity that is typed: large numerals, the unit beside them, what is wrong under them.
#[component]
pub fn QuantityField(
    /// What is asked.
    #[prop(into)]
    label: Text,
    /// What is typed so far, as it was typed.
    #[prop(into)]
    value: Text,
    /// Something was typed.
    #[prop(into)]
    on_input: Callback<String>,
    /// The unit.
    #[prop(optional, into)]
    unit: MaybeText,
    /// What helps to answer.
    #[prop(optional, into)]
    hint: MaybeText,
    /// What is wrong with the answer.
    #[prop(optional, into)]
    error: MaybeText,
    /// Whether only whole numbers make sense: a keypad without a decimal sign.
    #[prop(optional)]
    whole: bool,
) -> impl IntoView {
    let id = fresh_id("quantity");
    let (words, described) = words(&id, hint, error);
    view! {
        <div class="field quantity">
            <label for=id.clone()>{move || label.get()}</label>
            <div class="field-line">
                <input
                    id=id
                    type="text"
                    inputmode=if whole { "numeric" } else { "decimal" }
                    autocomplete="off"
                    enterkeyhint="done"
                    aria-describedby=described
                    aria-invalid=move || error.with(Option::is_some).then_some("true")
                    prop:value=move || value.get()
                    on:input:target=move |input| on_input.run(input.target().value())
                />
                {move || unit.get().map(|unit| view! { <span class="unit">{unit}</span> })}
            </div>
            {words}
        </div>
    }
}

/// A line of text that is typed: a reference, a batch, a name's initials.
#[component]
pub fn TextField(
    /// What is asked.
    #[prop(into)]
    label: Text,
    /// What is typed so far.
    #[prop(into)]
    value: Text,
    /// Something was typed.
    #[prop(into)]
    on_input: Callback<String>,
    /// What helps to answer.
    #[prop(optional, into)]
    hint: MaybeText,
    /// What is wrong with the answer.
    #[prop(optional, into)]
    error: MaybeText,
    /// The kind of input, as HTML names it: `text`, `date`, `month`, `time`, `password`.
    #[prop(default = "text")]
    kind: &'static str,
    /// Whether several lines may be typed.
    #[prop(optional)]
    long: bool,
) -> impl IntoView {
    let id = fresh_id("text");
    let (words, described) = words(&id, hint, error);
    let invalid = move || error.with(Option::is_some).then_some("true");
    let input = if long {
        view! {
            <textarea
                id=id.clone()
                rows="3"
                aria-describedby=described
                aria-invalid=invalid
                prop:value=move || value.get()
                on:input:target=move |input| on_input.run(input.target().value())
            ></textarea>
        }
        .into_any()
    } else {
        view! {
            <input
                id=id.clone()
                type=kind
                autocomplete="off"
                autocapitalize="off"
                spellcheck="false"
                aria-describedby=described
                aria-invalid=invalid
                prop:value=move || value.get()
                on:input:target=move |input| on_input.run(input.target().value())
            />
        }
        .into_any()
    };
    view! {
        <div class="field">
            <label for=id>{move || label.get()}</label>
            <div class="field-line">{input}</div>
            {words}
        </div>
    }
}

/// The hint and the error under a field, and the ids that tie them to it.
fn words(
    id: &str,
    hint: MaybeText,
    error: MaybeText,
) -> (impl IntoView + use<>, impl Fn() -> Option<String> + Send + Sync + use<>) {
    let (hint_id, error_id) = (format!("{id}-hint"), format!("{id}-error"));
    let ids = (hint_id.clone(), error_id.clone());
    let described = move || {
        let ids: Vec<&str> = [
            error.with(Option::is_some).then_some(ids.1.as_str()),
            hint.with(Option::is_some).then_some(ids.0.as_str()),
        ]
        .into_iter()
        .flatten()
        .collect();
        (!ids.is_empty()).then(|| ids.join(" "))
    };
    let view = view! {
        <p class="field-error" id=error_id role="status">
            {move || {
                error
                    .get()
                    .map(|error| view! { <Sign icon=Icon::Warning /> <span>{error}</span> })
            }}
        </p>
        <p class="field-hint" id=hint_id>
            {move || hint.get()}
        </p>
    };
    (view, described)
}

/// A small whole number: one less, the number, one more.
#[component]
pub fn Stepper(
    /// What is counted.
    #[prop(into)]
    label: Text,
    /// The number.
    #[prop(into)]
    value: Signal<u32>,
    /// The new number.
    #[prop(into)]
    on_change: Callback<u32>,
    /// The smallest it may be.
    #[prop(optional, into)]
    least: Signal<u32>,
    /// The largest it may be.
    #[prop(default = u32::MAX.into(), into)]
    most: Signal<u32>,
    /// The unit.
    #[prop(optional, into)]
    unit: MaybeText,
    /// The name of the button for one less.
    #[prop(into)]
    less_label: Text,
    /// The name of the button for one more.
    #[prop(into)]
    more_label: Text,
    /// What helps to answer.
    #[prop(optional, into)]
    hint: MaybeText,
) -> impl IntoView {
    let id = fresh_id("stepper");
    let at_least = move || value.get() <= least.get();
    let at_most = move || value.get() >= most.get();
    let less = move |_| {
        if !at_least() {
            on_change.run(value.get_untracked() - 1);
        }
    };
    let more = move |_| {
        if !at_most() {
            on_change.run(value.get_untracked() + 1);
        }
    };
    view! {
        <div class="field stepper" role="group" aria-labelledby=id>
            <span class="field-label" id=id.clone()>
                {move || label.get()}
            </span>
            <div class="stepper-line">
                <button
                    type="button"
                    class="stepper-button"
                    aria-label=move || less_label.get()
                    aria-disabled=move || at_least().then_some("true")
                    on:click=less
                >
                    <Sign icon=Icon::Less />
                </button>
                <output class="stepper-number">
                    {move || value.get()}
                    {move || {
                        unit.get()
                            .map(|unit| view! { <span class="unit">{format!("\u{a0}{unit}")}</span> })
                    }}
                </output>
                <button
                    type="button"
                    class="stepper-button"
                    aria-label=move || more_label.get()
                    aria-disabled=move || at_most().then_some("true")
                    on:click=more
                >
                    <Sign icon=Icon::More />
                </button>
            </div>
            {move || hint.get().map(|hint| view! { <p class="field-hint">{hint}</p> })}
        </div>
    }
}

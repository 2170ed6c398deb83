//! Choosing: one of several or several of many, as large rows or as small chips.
//!
//! All four are real radio buttons and check boxes, so the keyboard and screen readers work as
//! everywhere. The typed components only translate values to places in the list; what draws the
//! list is compiled once.

use super::{Icon, Sign, Text, fresh_id};
use leptos::prelude::*;

/// One thing to choose.
#[derive(Clone, Debug, PartialEq)]
pub struct Item<T> {
    /// What choosing it means.
    pub value: T,
    /// Its name.
    pub label: String,
    /// A few words under the name.
    pub hint: Option<String>,
    /// Whether it stands for harm: it gets the warning sign and the danger colour.
    pub danger: bool,
}

impl<T> Item<T> {
    /// A thing to choose, by name.
    pub fn new(value: T, label: impl Into<String>) -> Self {
        Self { value, label: label.into(), hint: None, danger: false }
    }

    /// With a few words under the name.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// As something that stands for harm.
    #[must_use]
    pub fn danger(mut self) -> Self {
        self.danger = true;
        self
    }
}

/// One of several, as large rows. The arrow keys choose as they move, so choosing must not leave
/// the screen.
#[component]
pub fn Choice<T>(
    /// The question.
    #[prop(into)]
    legend: Text,
    /// Whether the question is only for a screen reader, as when the title asks it.
    #[prop(optional)]
    legend_hidden: bool,
    /// What there is to choose.
    #[prop(into)]
    items: Signal<Vec<Item<T>>>,
    /// What is chosen.
    #[prop(into)]
    value: Signal<Option<T>>,
    /// Chosen.
    #[prop(into)]
    on_choose: Callback<T>,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let chosen = move || value.with(|value| place(&items.read(), value.as_ref()));
    options(
        Shape::Rows,
        false,
        legend,
        legend_hidden,
        faces(items),
        one(chosen),
        pick(items, on_choose),
    )
}

/// One of two to four short options in a row.
#[component]
pub fn Segment<T>(
    /// The question.
    #[prop(into)]
    legend: Text,
    /// Whether the question is only for a screen reader.
    #[prop(optional)]
    legend_hidden: bool,
    /// What there is to choose.
    #[prop(into)]
    items: Signal<Vec<Item<T>>>,
    /// What is chosen.
    #[prop(into)]
    value: Signal<Option<T>>,
    /// Chosen.
    #[prop(into)]
    on_choose: Callback<T>,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let chosen = move || value.with(|value| place(&items.read(), value.as_ref()));
    options(
        Shape::Segment,
        false,
        legend,
        legend_hidden,
        faces(items),
        one(chosen),
        pick(items, on_choose),
    )
}

/// Several of many, as large rows.
#[component]
pub fn Tick<T>(
    /// The question.
    #[prop(into)]
    legend: Text,
    /// Whether the question is only for a screen reader.
    #[prop(optional)]
    legend_hidden: bool,
    /// What there is to tick.
    #[prop(into)]
    items: Signal<Vec<Item<T>>>,
    /// What is ticked.
    #[prop(into)]
    value: Signal<Vec<T>>,
    /// Ticked (true) or unticked (false).
    #[prop(into)]
    on_change: Callback<(T, bool)>,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    options(
        Shape::Rows,
        true,
        legend,
        legend_hidden,
        faces(items),
        several(items, value),
        toggle(items, on_change),
    )
}

/// Several of many, as small chips that flow in lines.
#[component]
pub fn Chips<T>(
    /// The question.
    #[prop(into)]
    legend: Text,
    /// Whether the question is only for a screen reader.
    #[prop(optional)]
    legend_hidden: bool,
    /// What there is to tick.
    #[prop(into)]
    items: Signal<Vec<Item<T>>>,
    /// What is ticked.
    #[prop(into)]
    value: Signal<Vec<T>>,
    /// Ticked (true) or unticked (false).
    #[prop(into)]
    on_change: Callback<(T, bool)>,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    options(
        Shape::Chips,
        true,
        legend,
        legend_hidden,
        faces(items),
        several(items, value),
        toggle(items, on_change),
    )
}

/// How a list of options looks.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shape {
    Rows,
    Chips,
    Segment,
}

impl Shape {
    const fn class(self) -> &'static str {
        match self {
            Self::Rows => "options rows-of",
            Self::Chips => "options chips",
            Self::Segment => "options segment",
        }
    }
}

/// An item without its value: what is seen of it.
type Face = Item<()>;

fn place<T: PartialEq>(items: &[Item<T>], value: Option<&T>) -> Option<usize> {
    value.and_then(|value| items.iter().position(|item| item.value == *value))
}

fn faces<T: Clone + PartialEq + Send + Sync + 'static>(
    items: Signal<Vec<Item<T>>>,
) -> Signal<Vec<Face>> {
    // A memo, so that a list rebuilt with the same words keeps its rows and the focus in them.
    Memo::new(move |_| {
        let face = |item: &Item<T>| Item {
            value: (),
            label: item.label.clone(),
            hint: item.hint.clone(),
            danger: item.danger,
        };
        items.read().iter().map(face).collect()
    })
    .into()
}

fn one(chosen: impl Fn() -> Option<usize> + Send + Sync + 'static) -> Signal<Vec<usize>> {
    Memo::new(move |_| chosen().into_iter().collect()).into()
}

fn several<T: PartialEq + Send + Sync + 'static>(
    items: Signal<Vec<Item<T>>>,
    value: Signal<Vec<T>>,
) -> Signal<Vec<usize>> {
    Memo::new(move |_| {
        let (items, value) = (items.read(), value.read());
        (0..items.len()).filter(|&n| value.contains(&items[n].value)).collect()
    })
    .into()
}

fn value_at<T: Clone + Send + Sync + 'static>(items: Signal<Vec<Item<T>>>, n: usize) -> Option<T> {
    items.with_untracked(|items: &Vec<Item<T>>| items.get(n).map(|item| item.value.clone()))
}

fn pick<T: Clone + Send + Sync + 'static>(
    items: Signal<Vec<Item<T>>>,
    on_choose: Callback<T>,
) -> Callback<(usize, bool)> {
    Callback::new(move |(n, _)| {
        if let Some(value) = value_at(items, n) {
            on_choose.run(value);
        }
    })
}

fn toggle<T: Clone + Send + Sync + 'static>(
    items: Signal<Vec<Item<T>>>,
    on_change: Callback<(T, bool)>,
) -> Callback<(usize, bool)> {
    Callback::new(move |(n, on)| {
        if let Some(value) = value_at(items, n) {
            on_change.run((value, on));
        }
    })
}

/// Draws a list of options, whatever they stand for.
fn options(
    shape: Shape,
    many: bool,
    legend: Text,
    legend_hidden: bool,
    faces: Signal<Vec<Face>>,
    chosen: Signal<Vec<usize>>,
    on_change: Callback<(usize, bool)>,
) -> impl IntoView {
    let group = fresh_id("options");
    let row = move |(n, face): (usize, Face)| {
        option(
            face,
            many,
            group.clone(),
            Memo::new(move |_| chosen.read().contains(&n)),
            move |on| {
                on_change.run((n, on));
            },
        )
    };
    view! {
        <fieldset class=shape.class()>
            <legend class:unseen=legend_hidden>{move || legend.get()}</legend>
            <div class="options-list">
                {move || faces.get().into_iter().enumerate().map(&row).collect_view()}
            </div>
        </fieldset>
    }
}

/// One option: a box or a round, its name, its hint.
fn option(
    face: Face,
    many: bool,
    group: String,
    chosen: Memo<bool>,
    on_change: impl Fn(bool) + 'static,
) -> impl IntoView {
    let name_id = fresh_id("option");
    let hint_id = face.hint.as_ref().map(|_| fresh_id("hint"));
    view! {
        <label class="option" class:harm=face.danger>
            <input
                type=if many { "checkbox" } else { "radio" }
                name=group
                prop:checked=move || chosen.get()
                aria-labelledby=name_id.clone()
                aria-describedby=hint_id.clone()
                on:change:target=move |change| {
                    on_change(change.target().checked());
                    // What is shown is what was decided, also where the tap was refused.
                    change.target().set_checked(chosen.get_untracked());
                }
            />
            <span class="option-box" aria-hidden="true">
                {many.then(|| view! { <Sign icon=Icon::Done /> })}
            </span>
            <span class="option-words">
                <span class="option-name" id=name_id>
                    {face.label}
                </span>
                {face
                    .hint
                    .map(|hint| {
                        view! {
                            <span class="option-hint" id=hint_id>
                                {hint}
                            </span>
                        }
                    })}
            </span>
            {face.danger.then(|| view! { <Sign icon=Icon::Warning /> })}
        </label>
    }
}

//! A photo of this case that was taken before, laid over what is shown now.

use crate::case::Case;
use crate::ui::parts::{Item, Note, Slider, Tick};
use crate::ui::photo::{Fetched, use_named};
use crate::ui::words::looking as said;
use leptos::prelude::*;

/// How strongly the earlier photo shows at first.
const FAINT: f64 = 0.4;

/// The earlier photo and how it is laid over. Copied freely.
#[derive(Clone, Copy)]
pub struct Earlier {
    wanted: bool,
    fetched: Signal<Fetched>,
    strength: RwSignal<f64>,
    on: RwSignal<bool>,
}

impl Earlier {
    /// Fetches it.
    pub fn of(case: &Case) -> Self {
        let name = case.photo_to_match();
        Self {
            wanted: name.is_some(),
            fetched: use_named(Signal::stored(name)),
            strength: RwSignal::new(FAINT),
            on: RwSignal::new(true),
        }
    }

    /// Whether there is one to match.
    pub const fn wanted(self) -> bool {
        self.wanted
    }
}

/// What is shown now, with the earlier photo over it.
#[component]
pub fn Laid(earlier: Earlier, children: Children) -> impl IntoView {
    let Earlier { fetched, strength, on, .. } = earlier;
    let over = move || match fetched.get() {
        Fetched::Here(url) if on.get() => Some(url.as_str().to_owned()),
        _ => None,
    };
    view! {
        <div class="laid">
            {children()}
            {move || {
                over()
                    .map(|url| {
                        view! {
                            <img
                                class="laid-over"
                                src=url
                                alt=said::show_earlier()
                                style:opacity=move || format!("{:.2}", strength.get())
                            />
                        }
                    })
            }}
        </div>
    }
}

/// How strongly the earlier photo shows, and whether it does.
#[component]
pub fn Controls(earlier: Earlier) -> impl IntoView {
    let Earlier { fetched, strength, on, wanted } = earlier;
    let items = vec![Item::new((), said::show_earlier())];
    let there = Memo::new(move |_| match fetched.get() {
        Fetched::Waiting => None,
        Fetched::Here(_) => Some(true),
        Fetched::Gone => Some(false),
    });
    move || match there.get() {
        _ if !wanted => None,
        None => None,
        Some(false) => Some(view! { <Note>{said::earlier_gone()}</Note> }.into_any()),
        Some(true) => Some(
            view! {
                <div class="laid-controls">
                    <Slider
                        label=said::strength()
                        value=strength
                        on_change=move |value| strength.set(value)
                    />
                    <Tick
                        legend=said::show_earlier()
                        legend_hidden=true
                        items=items.clone()
                        value=Signal::derive(move || if on.get() { vec![()] } else { Vec::new() })
                        on_change=move |((), shown): ((), bool)| on.set(shown)
                    />
                </div>
            }
            .into_any(),
        ),
    }
}

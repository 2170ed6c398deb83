//! The frame every screen stands in, and its heading.

use super::{Icon, MaybeText, Sign, Text};
use crate::ui::tap::press;
use leptos::html;
use leptos::prelude::*;

/// Where a screen stands on the way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StepMark {
    /// The steps' names, in order.
    pub names: Vec<String>,
    /// Which of them this is, from 0.
    pub at: usize,
    /// How much of it is done, 0 to 1.
    pub fraction: f64,
    /// The same in words, for a screen reader: "Step 4 of 5, Syringe".
    pub label: String,
}

/// The actions of a screen, always in sight at its bottom: `<Foot slot>…</Foot>` in [`Screen`].
#[slot]
pub struct Foot {
    /// Buttons, the next action first.
    children: Children,
}

/// One more thing in the top bar, between what it names and the alarm: `<TopBar slot>…</TopBar>`.
#[slot]
pub struct TopBar {
    /// A button.
    children: Children,
}

/// The frame: top bar, rail of steps, content, foot.
///
/// The top bar and the foot stay in sight while the content scrolls between them.
#[component]
pub fn Screen(
    /// What the screen belongs to, such as the case's reference.
    #[prop(optional, into)]
    reference: MaybeText,
    /// Where it stands on the way; without it there is no rail.
    #[prop(optional, into)]
    step: Signal<Option<StepMark>>,
    /// What the back button does; without it there is none.
    #[prop(optional, into)]
    back: Option<Callback<()>>,
    /// The back button's name for a screen reader.
    #[prop(optional, into)]
    back_label: Text,
    /// Opens the anaphylaxis sheet; without it there is no button.
    #[prop(optional, into)]
    on_anaphylaxis: Option<Callback<()>>,
    /// The word on that button.
    #[prop(optional, into)]
    anaphylaxis_label: Text,
    /// What else stands in the top bar.
    #[prop(optional)]
    top_bar: Option<TopBar>,
    /// The actions.
    #[prop(optional_no_strip)]
    foot: Option<Foot>,
    /// The content.
    children: Children,
) -> impl IntoView {
    let led = |to: Callback<()>| move |click| press(&click, || to.run(()));
    view! {
        <div class="screen">
            <header class="top">
                <div class="top-line">
                    {back
                        .map(|back| {
                            view! {
                                <button
                                    type="button"
                                    class="top-back"
                                    aria-label=move || back_label.get()
                                    on:click=led(back)
                                >
                                    <Sign icon=Icon::Back />
                                </button>
                            }
                        })}
                    <p class="top-reference">{move || reference.get()}</p>
                    {top_bar.map(|bar| (bar.children)())}
                    {on_anaphylaxis
                        .map(|open| {
                            view! {
                                <button
                                    type="button"
                                    class="top-alarm"
                                    on:click=led(open)
                                >
                                    <Sign icon=Icon::Warning />
                                    <span>{move || anaphylaxis_label.get()}</span>
                                </button>
                            }
                        })}
                </div>
                {move || step.get().map(|mark| view! { <Rail mark /> })}
            </header>
            <main class="content">{children()}</main>
            {foot.map(|foot| view! { <footer class="foot">{(foot.children)()}</footer> })}
        </div>
    }
}

/// The steps as one quiet line.
#[component]
fn Rail(
    /// Where the screen stands.
    mark: StepMark,
) -> impl IntoView {
    let StepMark { names, at, fraction, label } = mark;
    let last = names.len().saturating_sub(1);
    let steps = names
        .into_iter()
        .enumerate()
        .map(|(n, name)| {
            let share = match n.cmp(&at) {
                std::cmp::Ordering::Less => 1.0,
                std::cmp::Ordering::Equal => fraction.clamp(0.0, 1.0),
                std::cmp::Ordering::Greater => 0.0,
            };
            view! {
                <li class:now=n == at class:last=n == last aria-current=(n == at).then_some("step")>
                    <span class="rail-track">
                        <span class="rail-done" style:width=format!("{}%", share * 100.0)></span>
                    </span>
                    <span class="rail-name">{name}</span>
                </li>
            }
        })
        .collect_view();
    view! {
        <nav class="rail" aria-label=label>
            <ol>{steps}</ol>
        </nav>
    }
}

/// The heading of a screen: one line above it, then the question or the order itself. The figure
/// that matters goes into `<em>`.
#[component]
pub fn Title(
    /// What it is about, in small.
    #[prop(optional, into)]
    eyebrow: MaybeText,
    /// Whether it takes the focus when it appears, so that a screen reader starts there. For a
    /// screen that replaces another, not for one that redraws as something is typed.
    #[prop(optional)]
    arrive: bool,
    /// The heading.
    children: Children,
) -> impl IntoView {
    let heading = NodeRef::<html::H1>::new();
    Effect::new(move |_| {
        if let Some(heading) = heading.get().filter(|_| arrive) {
            // A heading that cannot take the focus leaves it where it was; nothing is lost.
            let _ = heading.focus();
            // A new screen begins at its top, wherever the last one was scrolled to.
            window().scroll_to_with_x_and_y(0.0, 0.0);
        }
    });
    view! {
        <hgroup class="title">
            {move || eyebrow.get().map(|text| view! { <p class="eyebrow">{text}</p> })}
            <h1 node_ref=heading tabindex="-1">
                {children()}
            </h1>
        </hgroup>
    }
}

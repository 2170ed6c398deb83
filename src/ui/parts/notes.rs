//! Words that must be seen: notes by weight, and the outcome of a step.

use super::{Icon, MaybeText, Sign, Text};
use leptos::html;
use leptos::prelude::*;

/// How much a note weighs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tone {
    /// Good to know.
    #[default]
    Plain,
    /// Take care.
    Caution,
    /// Harm is near.
    Danger,
}

impl Tone {
    pub(super) const fn class(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Caution => "caution",
            Self::Danger => "harm",
        }
    }

    pub(super) const fn icon(self) -> Option<Icon> {
        match self {
            Self::Plain => None,
            Self::Caution => Some(Icon::Warning),
            Self::Danger => Some(Icon::Stop),
        }
    }
}

/// A note beside the content: plain, caution with a sign, danger with a sign and an outline.
#[component]
pub fn Note(
    /// How much it weighs.
    #[prop(optional, into)]
    tone: Signal<Tone>,
    /// Its first words, set apart.
    #[prop(optional, into)]
    heading: MaybeText,
    /// Whether a screen reader says it at once when it appears.
    #[prop(optional)]
    alert: bool,
    /// The note.
    children: Children,
) -> impl IntoView {
    view! {
        <div class=move || format!("note {}", tone.get().class()) role=alert.then_some("alert")>
            {move || tone.get().icon().map(|icon| view! { <Sign icon /> })}
            <div class="note-words">
                {move || {
                    heading.get().map(|heading| view! { <p class="note-heading">{heading}</p> })
                }} {children()}
            </div>
        </div>
    }
}

/// What a step came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Act now.
    Urgent,
    /// It can be planned.
    Planned,
    /// To other hands at once.
    HandOver,
    /// Not a case for this treatment.
    NotForIt,
}

impl Outcome {
    const fn class(self) -> &'static str {
        match self {
            Self::Urgent => "urgent",
            Self::Planned => "planned",
            Self::HandOver => "hand-over",
            Self::NotForIt => "not-for-it",
        }
    }

    const fn icon(self) -> Icon {
        match self {
            Self::Urgent => Icon::Urgent,
            Self::Planned => Icon::Planned,
            Self::HandOver => Icon::HandOver,
            Self::NotForIt => Icon::NotForIt,
        }
    }
}

/// The outcome of a step as one large block. Four kinds, told apart by sign, outline and word.
#[component]
pub fn Verdict(
    /// Which outcome.
    #[prop(into)]
    outcome: Signal<Outcome>,
    /// The outcome in a word or two.
    #[prop(into)]
    word: Text,
    /// What it means here, in a sentence.
    #[prop(into)]
    heading: Text,
    /// Whether it is all there is to a screen: its heading is then the screen's, and takes the focus
    /// when it appears, so that a screen reader starts there.
    #[prop(optional)]
    alone: bool,
    /// The reasons.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let title = NodeRef::<html::H1>::new();
    Effect::new(move |_| {
        if let Some(title) = title.get() {
            // A heading that cannot take the focus leaves it where it was; nothing is lost.
            let _ = title.focus();
        }
    });
    let words = move || heading.get();
    let heading = if alone {
        view! { <h1 class="verdict-heading" node_ref=title tabindex="-1">{words}</h1> }.into_any()
    } else {
        view! { <p class="verdict-heading">{words}</p> }.into_any()
    };
    view! {
        <section class=move || format!("verdict {}", outcome.get().class())>
            <p class="verdict-word">
                <Sign icon=Signal::derive(move || outcome.get().icon()) />
                {move || word.get()}
            </p>
            {heading}
            {children.map(|children| view! { <div class="verdict-reasons">{children()}</div> })}
        </section>
    }
}

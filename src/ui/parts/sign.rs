//! The few signs that go with words, drawn on a 24 × 24 field with one stroke width.

use leptos::prelude::*;

/// Which sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Icon {
    /// A triangle with a stroke and a dot: take care.
    Warning,
    /// An eight-sided plate: stop.
    Stop,
    /// A clock face: time counts.
    Urgent,
    /// A calendar leaf: it can be planned.
    Planned,
    /// An arrow leaving a frame: to other hands.
    HandOver,
    /// A crossed circle: not for it.
    NotForIt,
    /// An i in a circle: good to know.
    Info,
    /// A hook: done.
    Done,
    /// A handset: to call.
    Call,
    /// To the screen before.
    Back,
    /// Onwards; also on rows that open something.
    Onward,
    /// Away with it.
    Close,
    /// One more.
    More,
    /// One less.
    Less,
    /// An arrow up in a triangle: better.
    Better,
    /// An arrow down in a triangle on its tip: worse.
    Worse,
    /// Two lines of one length: as before.
    Same,
    /// Three dots: nothing to tell.
    Untold,
    /// A disc with rays: the screen, and the light on it.
    Sun,
}

impl Icon {
    /// Its outline as SVG path data.
    const fn path(self) -> &'static str {
        match self {
            Self::Warning => "M12 3.5 21.5 20h-19zM12 10v4.5M12 17.2v.3",
            Self::Stop => "M8 2.8h8L21.2 8v8L16 21.2H8L2.8 16V8zM12 7v6M12 16.4v.3",
            Self::Urgent => "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM12 7v5.2l3.4 2.2",
            Self::Planned => "M4 5.5h16v15H4zM4 10h16M8.5 3v4.5M15.5 3v4.5M8.5 15l2.4 2.3 4.6-4.6",
            Self::HandOver => "M12.5 4H4v16h8.5M9.5 12h11M16.5 7.5 21 12l-4.5 4.5",
            Self::NotForIt => "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM5.8 5.8l12.4 12.4",
            Self::Info => "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM12 11v5.5M12 7.5v.3",
            Self::Done => "M4.5 12.5 10 18 19.5 7",
            Self::Call => {
                "M6 3.5h3l1.6 4.6-2.2 1.7a12.5 12.5 0 0 0 5.8 5.8l1.7-2.2 4.6 1.6v3c0 1-.8 1.8-1.8 1.7C11 19 5 13 4.3 5.3 4.2 4.3 5 3.5 6 3.5z"
            }
            Self::Back => "M15 4.5 7.5 12l7.5 7.5",
            Self::Onward => "M9 4.5 16.5 12 9 19.5",
            Self::Close => "M5.5 5.5l13 13M18.5 5.5l-13 13",
            Self::More => "M12 4.5v15M4.5 12h15",
            Self::Less => "M4.5 12h15",
            Self::Better => "M12 5 20 19H4zM12 9v8M9.5 15.5h5",
            Self::Worse => "M12 19 4 5h16zM12 15V7M9.5 8.5h5",
            Self::Same => "M5 9h14M5 15h14",
            Self::Untold => "M6 12v.3M12 12v.3M18 12v.3",
            Self::Sun => {
                "M12 8a4 4 0 1 0 0 8 4 4 0 0 0 0-8zM12 2.5v2.2M12 19.3v2.2M2.5 12h2.2M19.3 12h2.2M5.3 5.3l1.5 1.5M17.2 17.2l1.5 1.5M18.7 5.3l-1.5 1.5M6.8 17.2l-1.5 1.5"
            }
        }
    }
}

/// A sign. Always beside a word or in a labelled button, so screen readers skip it.
#[component]
pub fn Sign(
    /// Which sign.
    #[prop(into)]
    icon: Signal<Icon>,
) -> impl IntoView {
    view! {
        <svg class="sign" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            <path d=move || icon.get().path() />
        </svg>
    }
}

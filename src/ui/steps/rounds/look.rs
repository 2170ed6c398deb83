//! Looking: the skin, then the patient. Nothing is recorded before the end, and what was taken down
//! until then is kept while another page is shown.
//!
//! | file | what it is |
//! |---|---|
//! | `draft` | what is being taken down, and how it outlives the screen |
//! | `skin` | refill, colour, temperature |
//! | `patient` | pain, function, the signs that go before everything |
//! | `photo` | a photo from the same angle, by the live camera or from a file |
//! | `laid` | two photos laid over one another |

mod draft;
mod laid;
mod patient;
mod photo;
mod skin;

pub use draft::{forget, waiting};

use crate::care::rounds::Look;
use crate::ui::steps::use_here;
use draft::{Draft, Part};
use leptos::prelude::*;

/// What becomes of a look that is taken down.
#[derive(Clone, Copy)]
pub struct LookWays {
    /// Whether the rail of the steps shows.
    pub rail: bool,
    /// It was left, and dropped.
    pub leave: Callback<()>,
    /// It is whole. What is kept of it is to be forgotten, by [`forget`], once it is recorded.
    pub record: Callback<Look>,
}

/// A look being taken down.
#[component]
pub fn Looking(ways: LookWays) -> impl IntoView {
    let draft = Draft::take_up(use_here());
    move || match draft.part.get() {
        Part::Skin => view! { <skin::Skin ways draft /> }.into_any(),
        Part::Patient => view! { <patient::Patient ways draft /> }.into_any(),
        Part::Photo => view! { <photo::PhotoScreen draft rail=ways.rail /> }.into_any(),
    }
}

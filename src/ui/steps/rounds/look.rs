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

pub use draft::waiting;

use super::Step5;
use crate::ui::steps::use_here;
use draft::{Draft, Part};
use leptos::prelude::*;

/// A look being taken down.
#[component]
pub fn Looking(step: Step5) -> impl IntoView {
    let draft = Draft::take_up(use_here());
    move || match draft.part.get() {
        Part::Skin => view! { <skin::Skin step draft /> }.into_any(),
        Part::Patient => view! { <patient::Patient step draft /> }.into_any(),
        Part::Photo => view! { <photo::PhotoScreen draft /> }.into_any(),
    }
}

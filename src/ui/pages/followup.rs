//! The patient seen again, until the case is closed.
//!
//! | file | what it is |
//! |---|---|
//! | `stands` | how it stands, and the one thing to do |
//! | `found` | the last review, and what it asks for |
//! | `came` | what the skin and the correction came to, after the measures |
//! | `when` | the next review |

mod came;
mod found;
mod stands;
mod when;

use crate::care::rounds::Look;
use crate::case::CaseId;
use crate::ui::app::set_title;
use crate::ui::parts::Foot;
use crate::ui::steps::{Flagged, LookWays, Looking, use_here, waiting};
use crate::ui::words::followup as said;
use came::{Answered, Came};
use leptos::prelude::*;
use stands::Stands;
use when::When;

/// What is shown: one decision each.
#[derive(Clone)]
enum View {
    /// How it stands.
    Stands,
    /// The measures.
    Looking,
    /// What the skin and the correction came to.
    Came(Box<Look>),
    /// The next review.
    When,
}

type Shown = RwSignal<View>;

/// The patient seen again, until the case is closed.
#[component]
pub fn FollowUpPage(
    /// Which case.
    id: CaseId,
) -> impl IntoView {
    set_title(said::title());
    let here = use_here();
    let first = here.now();
    // A look of the hours that waits belongs to the hours.
    let waits = waiting(&first) && first.treatment.end().is_some();
    let view: Shown = RwSignal::new(if waits { View::Looking } else { View::Stands });
    let answered = Answered::take_up(&first);
    let ways = LookWays {
        rail: false,
        leave: Callback::new(move |()| {
            answered.forget();
            view.set(View::Stands);
        }),
        record: Callback::new(move |look: Look| view.set(View::Came(Box::new(look)))),
    };
    move || match view.get() {
        View::Stands => view! { <Stands id shown=view /> }.into_any(),
        View::Looking => view! { <Looking ways /> }.into_any(),
        View::Came(look) => view! { <Came look=*look answered shown=view /> }.into_any(),
        View::When => view! { <When shown=view /> }.into_any(),
    }
}

/// The frame of these screens: a sign that stands goes before everything.
#[component]
fn Framed(back: Callback<()>, foot: Foot, children: Children) -> impl IntoView {
    view! {
        <super::Framed back foot=Some(foot)>
            <Flagged />
            {children()}
        </super::Framed>
    }
}

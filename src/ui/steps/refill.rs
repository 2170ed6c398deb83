//! Capillary refill taken side by side: timed by hand, or typed; the readings, and what they amount
//! to.
//!
//! | file | what it is |
//! |---|---|
//! | `timing` | [`Timing`]: what was read so far, and what is asked about |
//! | `rows` | the readings of both sides |
//! | `read` | the next reading: the button, the field, the question about a doubtful one |
//! | `compare` | the medians against each other and against the published limits |

mod compare;
mod read;
mod rows;
mod timing;

pub use timing::{Timed, Timing, Way};

use crate::care::refill::{Colour, Person};
use crate::ui::parts::{Item, Segment};
use crate::ui::words::looking as said;
use leptos::prelude::*;

/// Readings of refill, taken and shown.
#[component]
pub fn RefillTimer(
    /// What was read so far.
    timing: Timing,
    /// Whose limits apply.
    #[prop(into)]
    person: Signal<Person>,
    /// Colour of the affected skin, as far as it is told.
    #[prop(into)]
    colour: Signal<Colour>,
) -> impl IntoView {
    let ways =
        [(Way::Hold, said::hold()), (Way::Tap, said::tap()), (Way::Type, said::type_label())]
            .map(|(way, name)| Item::new(way, name))
            .to_vec();
    view! {
        <section class="refill">
            <rows::Rows timing />
            <read::Next timing />
            <Segment
                legend=said::how()
                items=ways
                value=Signal::derive(move || Some(timing.way.get()))
                on_choose=move |way| timing.choose(way)
            />
            <compare::Compared timing person colour />
        </section>
    }
}

//! How the solution for the skin test is made: nothing has been drawn up yet at this step.

use crate::care::dilution::{Ask, Syringe, Vial, plans};
use crate::care::skin_test::Portion;
use crate::case::Case;
use crate::measure::Strength;
use crate::ui::words::app::allergy as said;
use crate::ui::words::dilution as words_of;
use leptos::prelude::*;

/// The movements that lead from one vial to the test's portion, closed until wanted. Nothing is
/// shown where the syringe in the hand cannot make it.
#[component]
pub fn Making(
    /// The case, for the vial and the syringe in the hand.
    case: std::sync::Arc<Case>,
    /// What the test is drawn from.
    strength: Strength,
    /// How much is injected.
    #[prop(into)]
    portion: Signal<Option<Portion>>,
) -> impl IntoView {
    let movements = Memo::new(move |_| -> Option<Vec<String>> {
        let protocol = &case.protocol;
        let syringe = Syringe::new(protocol.syringe_holds, protocol.syringe_marks).ok()?;
        let vial = Vial { units: protocol.vial_units, holds: protocol.vial_holds };
        let ask = Ask::volume(vial, Some(1), strength, portion.get()?.volume, syringe);
        let plan = plans(&ask).ok()?.into_iter().next()?;
        let say = |movement| words_of::movement(movement, plan.vials_used(), case.diluent);
        Some(plan.movements().iter().map(|movement| say(*movement)).collect())
    });
    move || {
        movements.get().map(|movements| {
            view! {
                <details class="more">
                    <summary>{said::making()}</summary>
                    <ol class="numbered">
                        {movements.into_iter().map(|words| view! { <li>{words}</li> }).collect_view()}
                    </ol>
                </details>
            }
        })
    }
}

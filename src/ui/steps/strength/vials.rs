//! What the plan takes against what there is.

use super::ways::Ways;
use crate::care::dose;
use crate::case::Event;
use crate::measure::Units;
use crate::phone::clock;
use crate::protocol::{Id, Quantity};
use crate::ui::desk::use_desk;
use crate::ui::parts::{Figure, Figures, Item, Note, Segment, Stepper, Tone};
use crate::ui::steps::use_here;
use crate::ui::words::strength as said;
use leptos::prelude::*;

/// Vials and syringes that the plan takes, and vials at hand if they are counted.
#[component]
pub fn Supplies(
    ways: Ways,
    /// Vials at hand; `None` while they are not counted.
    vials: RwSignal<Option<u32>>,
    /// Units wanted.
    dose: Signal<Option<Units>>,
) -> impl IntoView {
    let here = use_here();
    let counted = vec![Item::new(false, said::vials_untold()), Item::new(true, said::vials_told())];
    let choose = move |counted: bool| {
        let usual = here.now().protocol.vials_at_hand;
        vials.set(counted.then_some(usual));
    };
    let taken = move || {
        let plan = ways.chosen.get()?;
        let vial = here.case().protocol.vial_units;
        Some(view! {
            <Figures>
                <Figure
                    label=said::vials_needed()
                    number=plan.vials_used().to_string()
                    unit=Some(said::vials_of(vial))
                />
                <Figure label=said::syringes() number=plan.syringes().len().to_string() />
            </Figures>
        })
    };
    let against = move || {
        let at_hand = vials.get()?;
        let supply = dose::supply(dose.get()?, here.case().protocol.vial_units, at_hand);
        let tone = if supply.missing > 0 { Tone::Caution } else { Tone::Plain };
        Some(view! { <Note tone=tone>{said::supply(supply, at_hand)}</Note> })
    };
    view! {
        {taken}
        <InKit ways />
        <Segment
            legend=said::vials_at_hand()
            items=counted
            value=Signal::derive(move || Some(vials.get().is_some()))
            on_choose=choose
        />
        {move || {
            vials
                .read()
                .is_some()
                .then(|| {
                    view! {
                        <Stepper
                            label=said::how_many()
                            value=Signal::derive(move || vials.get().unwrap_or_default())
                            on_change=move |count| vials.set(Some(count))
                            less_label=said::one_less()
                            more_label=said::one_more()
                            hint=Some(said::clinic_holds(here.now().protocol.vials_at_hand))
                        />
                    }
                })
        }}
        {against}
    }
}

/// The kit's own vials as the first choice, and whether they do for the plan. Nothing where the kit
/// holds none, as on the desk of a rehearsal.
#[component]
fn InKit(ways: Ways) -> impl IntoView {
    let (here, desk) = (use_here(), use_desk());
    let strengths = Memo::new(move |_| desk.stock().strengths(clock::today()));
    let items = Signal::derive(move || -> Vec<Item<Units>> {
        let item = |(units, left): (&Units, &u32)| Item::new(*units, said::in_kit(*units, *left));
        strengths.read().iter().map(item).collect()
    });
    let choose = move |units| here.record(Event::Set(Id::VialUnits, Quantity::Units(units)));
    let short = move || {
        let (plan, strengths) = (ways.chosen.get()?, strengths.read());
        let units = plan.ask().vial.units;
        let there = strengths.get(&units).copied().unwrap_or_default();
        (there < plan.vials_used()).then(|| {
            let words = said::kit_short(plan.vials_used(), units, there);
            view! { <Note tone=Tone::Caution>{words}</Note> }
        })
    };
    let some = Memo::new(move |_| !strengths.read().is_empty());
    move || {
        some.get().then(|| {
            view! {
                <Segment
                    legend=said::in_kit_label()
                    items
                    value=Signal::derive(move || Some(here.case().protocol.vial_units))
                    on_choose=choose
                />
                {short}
            }
        })
    }
}

//! The questions that change the dose: age, weight, build, whose table.

use super::Sheet;
use super::whom::Typed;
use crate::care::anaphylaxis::Build;
use crate::measure::Mass;
use crate::protocol::Region;
use crate::protocol::adrenaline::by_weight;
use crate::ui::parts::{Item, Note, QuantityField, Segment};
use crate::ui::words::{anaphylaxis as words_of, sheet as said, typed};
use leptos::prelude::*;

/// Everything that changes the dose, closed until wanted: most patients are grown. Open where
/// something has to be put right.
#[component]
pub fn OtherPatient(sheet: Sheet) -> impl IntoView {
    let whom = sheet.whom;
    let wanted = whom.get_untracked().dose().is_none();
    let asked = Memo::new(move |_| whom.read().asks_build());
    view! {
        <details class="more" open=wanted>
            <summary>{said::other_patient()}</summary>
            <Age sheet />
            <Weight sheet />
            {move || asked.get().then(|| view! { <BuildChoice sheet /> })}
            <RegionChoice sheet />
        </details>
    }
}

#[component]
fn BuildChoice(sheet: Sheet) -> impl IntoView {
    let builds = vec![
        Item::new(Build::Adult, said::grown()),
        Item::new(Build::Small, said::small_label()).hint(said::small()),
    ];
    view! {
        <Segment
            legend=said::build()
            items=builds
            value=Signal::derive(move || Some(sheet.whom.read().built()))
            on_choose=move |build| sheet.say(|whom| whom.build = Some(build))
        />
    }
}

#[component]
fn Age(sheet: Sheet) -> impl IntoView {
    let typed = sheet.typed;
    let units = vec![Item::new(true, said::years()), Item::new(false, said::months())];
    view! {
        <QuantityField
            label=said::age()
            value=Signal::derive(move || typed.read().age.clone())
            whole=true
            unit=Signal::derive(move || {
                Some(if typed.read().months { said::months() } else { said::years() }.to_owned())
            })
            error=Signal::derive(move || typed::field::<u32>(&typed.read().age).err())
            on_input=move |text| sheet.retype(|typed: &mut Typed| typed.age = text)
        />
        <Segment
            legend=said::age_unit()
            items=units
            value=Signal::derive(move || Some(!typed.read().months))
            on_choose=move |years: bool| sheet.retype(|typed| typed.months = !years)
        />
    }
}

/// The weight, where the table has doses for it; else that it has none.
#[component]
fn Weight(sheet: Sheet) -> impl IntoView {
    let (whom, typed) = (sheet.whom, sheet.typed);
    let asked = Memo::new(move |_| by_weight(whom.read().region).is_some());
    let error = Signal::derive(move || match typed::field::<Mass>(&typed.read().weight) {
        Err(error) => Some(error),
        Ok(_) => whom.get().by_weight()?.err().and_then(said::no_weight),
    });
    move || {
        if asked.get() {
            view! {
                <QuantityField
                    label=said::weight()
                    value=Signal::derive(move || typed.read().weight.clone())
                    unit=Some(said::kg().to_owned())
                    error
                    on_input=move |text| sheet.retype(|typed: &mut Typed| typed.weight = text)
                />
            }
            .into_any()
        } else {
            view! { <Note>{said::by_age_alone()}</Note> }.into_any()
        }
    }
}

/// Whose tables go. In a case it is recorded for this case.
#[component]
pub fn RegionChoice(sheet: Sheet) -> impl IntoView {
    let whom = sheet.whom;
    let regions = [Region::Uk, Region::Australia]
        .map(|region| Item::new(region, words_of::region(region)))
        .to_vec();
    view! {
        <Segment
            legend=said::region()
            items=regions
            value=Signal::derive(move || Some(whom.read().region))
            on_choose=move |region| sheet.choose(region)
        />
    }
}

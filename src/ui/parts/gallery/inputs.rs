//! Choosing and typing.

use super::super::{
    Chips, Choice, GoButton, Item, QuantityField, Segment, Stepper, TextField, Tick, Title,
};
use super::{frame, nothing};
use leptos::prelude::*;

pub(super) fn choosing() -> AnyView {
    let chosen = RwSignal::new(Some(1));
    let ticked = RwSignal::new(vec![0, 2]);
    let tick = move |n: i32, on: bool| {
        ticked.update(|ticked| {
            ticked.retain(|&other| other != n);
            if on {
                ticked.push(n);
            }
        });
    };
    let content = view! {
        <Title eyebrow="Question 2 of 6">"What is seen on the skin?"</Title>
        <Tick
            legend="What is seen on the skin?"
            legend_hidden=true
            items=vec![
                Item::new(0, "Pale or white"),
                Item::new(1, "Blue net").hint("Also where it refills fast"),
                Item::new(2, "Sight changed or lost").danger(),
                Item::new(3, "Pain out of proportion"),
            ]
            value=ticked
            on_change=tick
        />
        <Choice
            legend="Where was it injected?"
            items=vec![
                Item::new(0, "Upper lip"),
                Item::new(1, "Fold beside the nose").hint("Artery of the angle of the mouth and nose"),
                Item::new(2, "Nose"),
            ]
            value=chosen
            on_choose=move |n| chosen.set(Some(n))
        />
        <Segment
            legend="Side"
            items=vec![Item::new(0, "Left"), Item::new(1, "Right"), Item::new(2, "Both")]
            value=chosen
            on_choose=move |n| chosen.set(Some(n))
        />
        <Chips
            legend="Areas"
            items=vec![
                Item::new(0, "Upper lip"),
                Item::new(1, "Lower lip"),
                Item::new(2, "Nose"),
                Item::new(3, "Cheek"),
                Item::new(4, "Chin"),
                Item::new(5, "Between the brows"),
            ]
            value=ticked
            on_change=tick
        />
    };
    let foot = view! { <GoButton on_press=nothing()>"Next"</GoButton> };
    frame(0, 0.33, content.into_any(), foot.into_any())
}

pub(super) fn typing() -> AnyView {
    let count = RwSignal::new(3_u32);
    let typed = RwSignal::new(String::from("0.40"));
    let wrong = RwSignal::new(String::from("12"));
    let words = RwSignal::new(String::from("4K12"));
    let content = view! {
        <Title eyebrow="Strength">"What is in the kit?"</Title>
        <QuantityField
            label="Filler to be removed"
            value=typed
            on_input=move |text| typed.set(text)
            unit="mL"
            hint="As noted at the injection"
        />
        <QuantityField
            label="Draw"
            value=wrong
            on_input=move |text| wrong.set(text)
            unit="mL"
            error="12 mL do not go into a 1 mL syringe. Is it 0.12 mL?"
        />
        <Stepper
            label="Vials"
            value=count
            on_change=move |n| count.set(n)
            least=1
            most=3
            unit="vials"
            less_label="One less"
            more_label="One more"
        />
        <TextField
            label="Batch"
            value=words
            on_input=move |text| words.set(text)
            hint="On the vial's label"
        />
        <TextField label="Expiry" kind="month" value="2027-03" on_input=|_| () />
        <TextField label="Reason" long=true value="" on_input=|_| () />
    };
    let foot = view! { <GoButton on_press=nothing()>"Next"</GoButton> };
    frame(2, 0.2, content.into_any(), foot.into_any())
}

//! Quick sums: the calculations of the steps without a case. The same rules, nothing recorded.

mod area;
mod inputs;
mod made;
mod making;
mod planned;
mod refuse;
mod syringe;

use self::inputs::{Inputs, Tab, Way};
use crate::ui::app::set_title;
use crate::ui::pages::Apart;
use crate::ui::parts::{Item, Segment, Title};
use crate::ui::words::{self, sums as said};
use leptos::prelude::*;

/// The three sums.
#[component]
pub fn Sums() -> impl IntoView {
    let inputs = Inputs::taken_up();
    set_title(said::title());
    let tabs = [
        Item::new(Tab::Strength, said::strength()),
        Item::new(Tab::Planned, said::planned()),
        Item::new(Tab::Area, said::area()),
    ];
    let tab = inputs.tab;
    view! {
        <Apart>
            <Title arrive=true eyebrow=Some(said::no_case().to_owned())>{said::title()}</Title>
            <Segment
                legend=said::which()
                legend_hidden=true
                items=tabs.to_vec()
                value=Signal::derive(move || Some(tab.get()))
                on_choose=move |chosen| tab.set(chosen)
            />
            {move || match tab.get() {
                Tab::Strength => view! { <StrengthTab inputs /> }.into_any(),
                Tab::Planned => view! { <planned::Planned inputs /> }.into_any(),
                Tab::Area => view! { <area::ByArea inputs /> }.into_any(),
            }}
            <p class="follow">{words::app::off_label()} " " {words::app::follow()}</p>
        </Apart>
    }
}

/// Strength, from either end.
#[component]
fn StrengthTab(inputs: Inputs) -> impl IntoView {
    let way = inputs.way;
    let ways = [Item::new(Way::Made, said::made()), Item::new(Way::Wanted, said::wanted())];
    view! {
        <Segment
            legend=said::way()
            items=ways.to_vec()
            value=Signal::derive(move || Some(way.get()))
            on_choose=move |chosen| way.set(chosen)
        />
        {move || match way.get() {
            Way::Made => view! { <made::Made inputs /> }.into_any(),
            Way::Wanted => view! { <making::Making inputs /> }.into_any(),
        }}
    }
}

//! The strength: the one in force, the others usual, and any other typed.

use super::set::SetField;
use crate::case::Event;
use crate::measure::Strength;
use crate::protocol::strengths::{ALL, OCCLUSION, Offer, PART};
use crate::protocol::{Id, Protocol, Quantity};
use crate::ui::parts::{Item, Segment, Why};
use crate::ui::steps::use_here;
use crate::ui::words;
use crate::ui::words::strength as said;
use leptos::prelude::*;

/// The strength in force for a situation.
pub fn strength(protocol: &Protocol, id: Id) -> Strength {
    match id {
        Id::PartStrength => protocol.part_strength,
        Id::AllStrength => protocol.all_strength,
        _ => protocol.urgent_strength,
    }
}

const fn offered(id: Id) -> &'static [Offer] {
    match id {
        Id::PartStrength => PART,
        Id::AllStrength => ALL,
        _ => OCCLUSION,
    }
}

/// The strengths to choose from.
#[component]
pub fn Strengths(
    /// Which of the protocol's strengths.
    id: Id,
) -> impl IntoView {
    let here = use_here();
    let items: Vec<Item<Strength>> =
        offered(id).iter().map(|offer| Item::new(offer.strength, said::offered(offer))).collect();
    let mut findings = words::protocol::findings(id);
    let known = findings.clone();
    findings.extend(said::offers(offered(id)).into_iter().filter(|offer| !known.contains(offer)));
    view! {
        <Segment
            legend=said::strength()
            items
            value=Signal::derive(move || Some(strength(&here.case().protocol, id)))
            on_choose=move |chosen| here.record(Event::Set(id, Quantity::Strength(chosen)))
        />
        <Why summary=said::why_strength() findings />
        <details class="more">
            <summary>{said::other_strength()}</summary>
            <SetField id />
        </details>
    }
}

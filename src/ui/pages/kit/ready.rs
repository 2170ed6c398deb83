//! Whether the kit would do for an occlusion: the answer first, then what it stands on.

use super::Kit;
use crate::kit::ready::{Readiness, Runs, Verdict};
use crate::ui::parts::{Figure, Figures, Icon, Note, Sign, Why};
use crate::ui::words::kit as said;
use leptos::prelude::*;

/// How the answer looks: four, told apart by word and sign.
const fn look(verdict: Verdict) -> (&'static str, Icon) {
    match verdict {
        Verdict::Ready => ("verdict planned", Icon::Done),
        Verdict::BelowWish => ("verdict", Icon::Warning),
        Verdict::NotAllNoted => ("verdict not-for-it", Icon::Untold),
        Verdict::NotReady => ("verdict urgent", Icon::Stop),
    }
}

/// Everything that speaks against it, with its sign.
fn against(worth: &Readiness) -> Vec<(Icon, String)> {
    let mut lines = Vec::new();
    for have in &worth.kinds {
        let icon = if have.noted && have.lacking() { Icon::Stop } else { Icon::Warning };
        lines.extend(said::lack(have).map(|words| (icon, words)));
    }
    let short = worth.diluent.filter(|diluent| diluent.there < diluent.needed);
    lines.extend(short.map(|diluent| (Icon::Stop, said::diluent(diluent))));
    for (runs, icon) in
        [(Runs::Out, Icon::Stop), (Runs::Near, Icon::Warning), (Runs::Ahead, Icon::Planned)]
    {
        let lots = worth.expiring.iter().filter(|one| one.runs == runs).count();
        if lots > 0 {
            lines.push((icon, said::runs(runs, lots)));
        }
    }
    if !worth.undated.is_empty() {
        lines.push((Icon::Warning, said::undated(worth.undated.len())));
    }
    lines
}

/// The answer for the place that is looked at.
#[component]
pub fn Ready(kit: Kit) -> impl IntoView {
    let worth = kit.worth;
    let verdict = Memo::new(move |_| worth.read().verdict);
    let lines = Memo::new(move |_| against(&worth.read()));
    let sizes = worth.with_untracked(|worth| worth.rounds.len());
    let figure = move |size: usize| {
        let of = move || said::rounds_of(worth.read().rounds[size].units);
        let served = move || worth.read().rounds[size].served.to_string();
        view! { <Figure label=Signal::derive(of) number=Signal::derive(served) /> }
    };
    let figures: Vec<_> = (0..sizes).map(figure).collect();
    let line = |(icon, words): (Icon, String)| {
        view! {
            <li>
                <Sign icon />
                <span>{words}</span>
            </li>
        }
    };
    view! {
        <section class="kit-ready">
            <div class=move || look(verdict.get()).0>
                <h2 class="verdict-word">{said::ask()}</h2>
                <p class="verdict-heading kit-answer">
                    <Sign icon=Signal::derive(move || look(verdict.get()).1) />
                    <span>{move || said::verdict(verdict.get())}</span>
                </p>
                <p>{move || said::asked_of(kit.place.get())}</p>
                {move || {
                    let lines = lines.get();
                    (!lines.is_empty())
                        .then(|| {
                            let lines = lines.into_iter().map(line).collect_view();
                            view! { <ul class="kit-lines">{lines}</ul> }
                        })
                }}
            </div>
            <div class="kit-rounds">
                <Figures>{figures}</Figures>
            </div>
            <Note>{said::booked()}</Note>
            <Why summary=said::how()>
                <p>{said::how_rounds()}</p>
            </Why>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::ready::readiness;
    use crate::kit::{Act, Article, Done, Lot, LotId, Place, Stock};
    use crate::measure::{Date, Hash, Moment};
    use crate::protocol::Protocol;

    #[test]
    fn what_is_past_its_day_and_what_is_short_are_both_said() {
        let day = |year, month, day| Date::new(year, month, day);
        let act = Act::Received(Box::new(Lot {
            article: Article::Needle,
            batch: "DEMO-1".into(),
            expiry: day(2026, 11, 25),
            gtin: None,
            place: Place::Clinic,
            count: 5,
        }));
        let done = Done { id: LotId(Hash::of(b"a")), at: Moment::from_millis(0), act: &act };
        let stock = Stock::of([done], &[]);
        let today = day(2026, 11, 26).unwrap();
        let worth = readiness(&stock, None, today, &Protocol::default());
        assert_eq!(worth.verdict, Verdict::NotReady);
        let said: Vec<String> = against(&worth).into_iter().map(|(_, words)| words).collect();
        assert!(said.contains(&"Needles: 0 of 1".to_owned()), "{said:?}");
        assert!(said.contains(&"Hyaluronidase: never noted".to_owned()), "{said:?}");
        assert!(said.iter().any(|words| words.starts_with("1 lot expired")), "{said:?}");
    }
}

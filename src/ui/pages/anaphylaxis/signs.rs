//! Is it anaphylaxis? The signs, and the criteria applied to them.

use super::Sheet;
use crate::care::anaphylaxis::{Act, Recognised, Sign, recognise};
use crate::measure::order;
use crate::ui::parts::{Item, Note, QuietButton, Tick, Tone};
use crate::ui::words::{anaphylaxis as words_of, sheet as said};
use leptos::prelude::*;

/// The signs, closed until wanted: who is sure must not be kept waiting.
#[component]
pub fn Signs(sheet: Sheet) -> impl IntoView {
    let ticked = RwSignal::new(Vec::<Sign>::new());
    let items = words_of::SIGNS.map(|sign| Item::new(sign, words_of::sign(sign))).to_vec();
    let found = Memo::new(move |_| recognise(&ticked.read()));
    let tone = move || {
        if found.get() == Recognised::NotMet { Tone::Plain } else { Tone::Danger }
    };
    let any = Memo::new(move |_| !ticked.read().is_empty());
    view! {
        <details class="more">
            <summary>{said::not_sure()}</summary>
            <Tick
                legend=said::signs()
                items
                value=ticked
                on_change=move |(sign, on): (Sign, bool)| {
                    ticked.update(|ticked| {
                        ticked.retain(|other| *other != sign);
                        if on {
                            ticked.push(sign);
                        }
                        order::sort(ticked);
                    });
                }
            />
            {move || {
                any.get()
                    .then(|| {
                        view! {
                            <Note tone=Signal::derive(tone) alert=true>
                                {words_of::recognised(found.get())}
                            </Note>
                            <QuietButton on_press=move |()| {
                                sheet.act(Act::Signs(ticked.get_untracked()));
                            }>{said::take_down_signs()}</QuietButton>
                        }
                    })
            }}
        </details>
    }
}

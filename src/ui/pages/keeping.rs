//! What has to be said about the record and the phone, on whatever page it comes up.

use crate::case::{Event, Step};
use crate::phone::jump::Jump;
use crate::phone::share::{self, Handed};
use crate::phone::tabs::{Tab, use_tab, use_take_over};
use crate::phone::update::{self, Update, use_update};
use crate::phone::{use_jump, use_now};
use crate::ui::alarm::{Bell, What, use_alarm};
use crate::ui::app::use_go;
use crate::ui::desk::{Desk, use_desk};
use crate::ui::page::Page;
use crate::ui::parts::{Banner, Foot, GoButton, Screen, Title, Tone};
use crate::ui::words::app::{self as words, keeping as said};
use crate::ui::words::ringing;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The notices above every page.
#[component]
pub fn Notices(
    /// The page below them.
    page: Memo<Page>,
) -> impl IntoView {
    view! {
        <div class="notices">
            <OfOtherCases page />
            <OfTheRecord />
            <OfThePhone />
        </div>
    }
}

/// What is due in a case that is not in view, each with the way there. What is due on the page itself is
/// said by the page.
#[component]
fn OfOtherCases(page: Memo<Page>) -> impl IntoView {
    let desk = use_desk();
    let go = use_go();
    let alarm = use_alarm();
    let elsewhere = Memo::new(move |_| {
        let page = page.get();
        let over = alarm.over().into_iter().filter_map(|bell| {
            let case = desk.held(bell.case)?.case;
            let here = match (page, bell.what) {
                (Page::Case(id, step), What::Look) => {
                    id == bell.case && step.unwrap_or_else(|| case.step()) == Step::Rounds
                }
                (Page::Anaphylaxis(id), What::Adrenaline) => id == Some(bell.case),
                _ => false,
            };
            let name = case.reference.as_ref().map_or("", |name| name.as_str()).to_owned();
            (!here).then_some((bell, name))
        });
        over.collect::<Vec<_>>()
    });
    move || {
        let banner = |(bell, name): (Bell, String)| {
            let target = match bell.what {
                What::Look => Page::Case(bell.case, Some(Step::Rounds)),
                What::Adrenaline => Page::Anaphylaxis(Some(bell.case)),
            };
            view! {
                <Banner
                    alert=true
                    tone=Tone::Danger
                    text=Some(ringing::elsewhere(bell.what, &name))
                    action=Some(ringing::lead(&name))
                    on_action=Callback::new(move |()| go.to(target))
                />
            }
        };
        elsewhere.get().into_iter().map(banner).collect_view()
    }
}

/// Some words while something is so.
fn told(when: bool, text: &'static str) -> Option<String> {
    when.then(|| text.to_owned())
}

/// What is not well with the record.
#[component]
fn OfTheRecord() -> impl IntoView {
    let desk = use_desk();
    let keeping = desk.keeping();
    let failed = RwSignal::new(None::<String>);
    let save = Callback::new(move |()| save_file(desk, failed));
    let file = || Some(said::save_file().to_owned());
    view! {
        <Banner
            tone=Tone::Danger
            text=Signal::derive(move || {
                let count = keeping.read().unsaved.len();
                (count > 0).then(|| words::unsaved(count))
            })
            action=Signal::derive(file)
            on_action=save
        />
        <Banner
            tone=Tone::Danger
            text=Signal::derive(move || {
                (!keeping.read().unsaved.is_empty()).then(|| said::try_again_why().to_owned())
            })
            action=Signal::derive(|| Some(said::try_again().to_owned()))
            on_action=Callback::new(move |()| desk.save_again())
        />
        <Banner
            tone=Tone::Caution
            text=Signal::derive(move || keeping.read().weak.as_ref().map(words::weak))
            action=Signal::derive(file)
            on_action=save
        />
        <Banner
            tone=Tone::Caution
            text=Signal::derive(move || {
                let keeping = keeping.read();
                (!keeping.damaged.is_empty()).then(|| words::damaged(&keeping.damaged))
            })
            action=Signal::derive(file)
            on_action=save
        />
        <Banner
            tone=Tone::Danger
            text=Signal::derive(move || told(keeping.read().unread == 1, said::unread()))
            action=Signal::derive(|| Some(said::try_again().to_owned()))
            on_action=Callback::new(move |()| desk.reload())
        />
        <Banner
            tone=Tone::Danger
            text=Signal::derive(move || told(keeping.read().unread > 1, said::nothing_read()))
            action=Signal::derive(|| Some(said::try_again().to_owned()))
            on_action=Callback::new(move |()| desk.reload())
        />
        <Banner
            tone=Tone::Danger
            text=Signal::derive(move || keeping.read().archive.as_ref().map(words::archive_unread))
            action=Signal::derive(|| Some(said::try_again().to_owned()))
            on_action=Callback::new(move |()| desk.reload())
        />
        <Banner
            tone=Tone::Caution
            text=Signal::derive(move || keeping.read().clock_behind.map(words::clock_behind))
        />
        <Banner
            tone=Tone::Danger
            text=failed
        />
    }
}

/// What is to be known of the phone: other tabs, its clock, a new version of the app.
#[component]
fn OfThePhone() -> impl IntoView {
    let desk = use_desk();
    let tab = use_tab();
    let take_over = use_take_over();
    let update = use_update();
    let jump = use_jump();
    let now = use_now();
    let busy = Memo::new(move |_| desk.busy(now.get()));
    view! {
        <Banner
            tone=Tone::Danger
            text=Signal::derive(move || told(tab.get() == Tab::Other, said::other_tab()))
            action=Signal::derive(|| Some(said::write_here().to_owned()))
            on_action=take_over
        />
        <Banner
            tone=Tone::Caution
            text=Signal::derive(move || {
                jump.get().map(|jump| match jump {
                    Jump::Back { by } => words::jumped(true, by),
                    Jump::Forward { by } => words::jumped(false, by),
                })
            })
        />
        <Banner
            text=Signal::derive(move || match update.get() {
                // A new version never takes over in the middle of something.
                Update::Waiting if !busy.get() => Some(said::update().to_owned()),
                _ => None,
            })
            action=Signal::derive(|| Some(said::update_now().to_owned()))
            on_action=Callback::new(|()| update::take_over())
        />
        <Banner
            text=Signal::derive(move || told(update.get() == Update::Replaced, said::replaced()))
            action=Signal::derive(|| Some(said::reload().to_owned()))
            on_action=Callback::new(|()| {
                // A browser that refuses to load again shows the old page, which goes on.
                let _ = window().location().reload();
            })
        />
    }
}

/// Offers the whole record as a file.
///
/// # Errors
/// What to tell the user: the browser did not take the file, or a part of the record is not in it.
pub async fn save_everything(desk: Desk) -> Result<Handed, String> {
    let (text, missing) = desk.everything().await;
    let handed = share::keep(said::file_name(), "text/plain", &text).await;
    if handed == Handed::Refused {
        return Err(said::file_failed().to_owned());
    }
    missing.map_or(Ok(handed), |why| Err(words::file_lacks(&why)))
}

/// The same for a banner, which says what failed.
fn save_file(desk: Desk, failed: RwSignal<Option<String>>) {
    spawn_local(async move { failed.set(save_everything(desk).await.err()) });
}

/// Writes a jump of the phone's clock into every open case, and reads anew when this tab may write.
pub fn watch() {
    let desk = use_desk();
    let jump = use_jump();
    Effect::new(move |_| {
        if let Some(jump) = jump.get() {
            let millis = match jump {
                Jump::Back { by } => -i64::try_from(by.as_millis()).unwrap_or(i64::MAX),
                Jump::Forward { by } => i64::try_from(by.as_millis()).unwrap_or(i64::MAX),
            };
            let running = untrack(|| desk.all()).into_iter();
            for held in running.filter(|held| held.case.open() || held.case.reaction.active()) {
                desk.record(held.case.id, Event::ClockJumped(millis));
            }
        }
    });
    let tab = use_tab();
    Effect::new(move |before: Option<Tab>| {
        let tab = tab.get();
        if before == Some(Tab::Other) && tab == Tab::Writer {
            desk.reload();
        }
        tab
    });
}

/// While the phone is being read.
#[component]
pub fn Reading() -> impl IntoView {
    view! {
        <Screen>
            <p class="quiet-line" role="status">
                {said::reading()}
            </p>
        </Screen>
    }
}

/// For an address that names no case here.
#[component]
pub fn NoSuchCase() -> impl IntoView {
    let go = use_go();
    view! {
        <Screen>
            <Title arrive=true>{said::no_case()}</Title>
            <p>{said::no_case_why()}</p>
            <Foot slot>
                <GoButton on_press=move |()| go.instead(Page::Home)>{said::home()}</GoButton>
            </Foot>
        </Screen>
    }
}

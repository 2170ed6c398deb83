//! Drawing round the skin without blood: on a face or on a photo, measured as it is drawn.
//!
//! | file | what it is |
//! |---|---|
//! | `hand` | fingers on the canvas, and what they do together |
//! | `window` | which part of the picture the canvas shows |
//! | `board` | the canvas: the two above in the browser |
//! | `work`, `shot` | what is being drawn, on which grounds |
//! | `closing` | a stroke without what sticks out where it was closed |
//! | `draft` | the same, kept until it is recorded |
//! | `easel` | what the screens share, and what the work comes to |
//! | `canvas`, `trace` | drawing |
//! | `camera`, `measure`, `loupe` | taking a photo and finding its scale |

mod board;
mod camera;
mod canvas;
mod closing;
mod draft;
mod easel;
mod hand;
mod loupe;
mod measure;
mod shot;
mod trace;
mod window;
mod work;

pub use easel::{Missing, Mode, Remark};
pub use shot::By;
pub use work::{On, Wrong};

use crate::case::{Event, Step};
use crate::measure::Area;
use crate::protocol::face::View;
use crate::ui::app::{set_title, use_go};
use crate::ui::page::Page;
use crate::ui::parts::{Foot, GoButton, Item, Note, Pair, QuietButton, Segment, Title, Tone};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::words::{sketching as said, strength};
use camera::{BeforePhoto, Camera, Inputs, Taking, use_camera};
use easel::{Easel, use_easel};
use leptos::html;
use leptos::prelude::*;
use measure::Measure;
use trace::Trace;
use wasm_bindgen::JsCast;

/// What there is to be done.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stage {
    /// Take a photo.
    Photo,
    /// Find its scale.
    Scale,
    /// Draw.
    Draw,
}

/// Drawing round the skin.
#[component]
pub fn OutlinePage(
    /// The step that it leads to.
    to: Step,
) -> impl IntoView {
    set_title(said::title());
    let here = use_here();
    let go = use_go();
    let easel = Easel::new(here);
    provide_context(easel);
    provide_context(Camera::new());
    let work = easel.work;
    let stage = Memo::new(move |_| {
        let work = work.read();
        match work.on() {
            On::View(_) => Stage::Draw,
            On::NewPhoto => Stage::Photo,
            On::Photo if matches!(&*easel.picture.read(), Some(Ok(_))) => Stage::Draw,
            On::Photo => Stage::Scale,
        }
    });
    // In place of this page, so that the phone's back does not lead into it again.
    let leave = move || go.instead(Page::Case(here.id, Some(to)));
    let top = NodeRef::<html::Div>::new();
    Effect::new(move |before: Option<Stage>| {
        let now = stage.get();
        if before.is_some_and(|before| before != now) {
            arrive(top);
        }
        now
    });
    view! {
        <CaseScreen step=to fraction=0.3 back=Callback::new(move |()| leave())>
            <div class="sketch" node_ref=top>
                <Title arrive=true>{move || heading(&easel, stage.get())}</Title>
                <Grounds />
                {move || match stage.get() {
                    Stage::Photo => view! { <BeforePhoto /> }.into_any(),
                    Stage::Scale => view! { <Measure /> }.into_any(),
                    Stage::Draw => view! { <Trace /> }.into_any(),
                }}
            </div>
            <Inputs />
            <Foot slot>
                {move || match stage.get() {
                    Stage::Photo => view! { <PhotoFoot /> }.into_any(),
                    Stage::Scale => view! { <ScaleFoot /> }.into_any(),
                    Stage::Draw => {
                        view! { <DrawFoot leave=Callback::new(move |()| leave()) anew=to == Step::Rounds /> }
                            .into_any()
                    }
                }}
            </Foot>
        </CaseScreen>
    }
}

/// Another thing is to be done: from the top, and for a screen reader from the heading, unless the
/// focus is in the row of grounds, where the arrow keys go on.
fn arrive(top: NodeRef<html::Div>) {
    window().scroll_to_with_x_and_y(0.0, 0.0);
    let Some(top) = top.get_untracked() else { return };
    let stays = document().active_element().is_some_and(|active| top.contains(Some(&active)));
    let heading = top.query_selector("h1").ok().flatten();
    if let Some(heading) = heading.filter(|_| !stays) {
        // A heading that cannot take the focus leaves it where it was; nothing is lost.
        let _ = heading.unchecked_into::<web_sys::HtmlElement>().focus();
    }
}

/// The size as it is drawn; before anything is, what to do.
fn heading(easel: &Easel, stage: Stage) -> AnyView {
    match stage {
        Stage::Photo => said::new_photo().into_any(),
        Stage::Scale => {
            let by = easel.work.read().shot().map(|shot| shot.by);
            said::marking(by.unwrap_or_default()).into_any()
        }
        Stage::Draw => {
            let size = easel.size;
            (move || match size.get() {
                None => said::round_it().into_any(),
                Some((area, patches)) => view! {
                    <em>{crate::ui::words::numbers::area_named(area)}</em>
                    " "
                    <small>
                        {said::patches(patches)}
                    </small>
                }
                .into_any(),
            })
            .into_any()
        }
    }
}

/// What to draw on.
#[component]
fn Grounds() -> impl IntoView {
    let easel = use_easel();
    let all = [View::Front, View::Right, View::Left, View::Lips].map(On::View);
    // No photo is taken of a simulated patient.
    let photo = (!rehearsed()).then_some(On::Photo);
    let items: Vec<Item<On>> =
        all.into_iter().chain(photo).map(|on| Item::new(on, said::on(on))).collect();
    let value = Signal::derive(move || {
        Some(match easel.work.read().on() {
            On::NewPhoto => On::Photo,
            on => on,
        })
    });
    view! {
        <div class="grounds">
            <Segment
                legend=said::ground()
                legend_hidden=true
                items
                value
                on_choose=move |on| easel.look_at(on)
            />
        </div>
    }
}

#[component]
fn PhotoFoot() -> impl IntoView {
    let (camera, easel) = (use_camera(), use_easel());
    let last = Memo::new(move |_| easel.here.case().last_photo());
    let reading = Signal::derive(move || {
        (camera.taking.get() == Taking::Reading).then(|| said::reading().to_owned())
    });
    view! {
        <GoButton on_press=move |()| camera.take() why_not=reading>
            {said::take()}
        </GoButton>
        <Pair>
            <QuietButton on_press=move |()| camera.choose()>{said::choose()}</QuietButton>
            {move || {
                last.get()
                    .map(|photo| {
                        view! {
                            <QuietButton on_press=move |()| {
                                camera.again(photo);
                            }>{said::last()}</QuietButton>
                        }
                    })
            }}
        </Pair>
    }
}

#[component]
fn ScaleFoot() -> impl IntoView {
    let easel = use_easel();
    let why_not = Signal::derive(move || measure::why_not(&easel));
    let settle = move |()| {
        easel.change(|work| {
            if let Some(shot) = work.shot_mut() {
                shot.settled = true;
            }
        });
    };
    view! { <GoButton on_press=settle why_not>{said::trace()}</GoButton> }
}

#[component]
fn DrawFoot(
    leave: Callback<()>,
    /// Whether the same outline as before counts as drawn anew: after a look it says that nothing
    /// has changed.
    anew: bool,
) -> impl IntoView {
    let easel = use_easel();
    let here = easel.here;
    let territory = Memo::new(move |_| easel.territory());
    let why_not = Signal::derive(move || territory.get().err().map(said::missing));
    let odd = Memo::new(move |_| match &*territory.read() {
        Err(Missing::Sure(area)) => Some(*area),
        _ => None,
    });
    let area = Memo::new(move |_| easel.size.get().map(|(area, _)| area));
    let take = move |()| {
        let Ok(territory) = territory.get_untracked() else { return };
        let done = move || {
            draft::forget(here.id);
            leave.run(());
        };
        if !anew && here.now().territory() == Some(&territory) {
            done();
        } else {
            here.record_then(Event::Territory(territory), done);
        }
    };
    view! {
        {move || odd.get().map(|area| view! { <Odd area /> })}
        <GoButton on_press=take why_not>
            {move || area.get().map_or_else(|| said::use_label().to_owned(), said::use_it)}
        </GoButton>
    }
}

/// Asks again about a large size.
#[component]
fn Odd(area: Area) -> impl IntoView {
    let easel = use_easel();
    let words = strength::large(area, &easel.here.now().protocol);
    view! {
        <Note tone=Tone::Caution>{words}</Note>
        <QuietButton on_press=move |()| easel.is_sure(area)>{strength::sure()}</QuietButton>
    }
}

//! A photo from the same angle as the one before: by the live camera with the earlier photo laid
//! faintly over it, or from a file. Whatever fails, the look goes on without one.

use super::draft::{Draft, Part};
use super::laid::{Controls, Earlier, Laid};
use crate::care::territory::Photo;
use crate::case::{Event, Step};
use crate::measure::Hash;
use crate::phone::camera::{Camera, NoCamera};
use crate::phone::picture::{ObjectUrl, Picture, Unreadable, take_frame, take_in};
use crate::plane::Extent;
use crate::store::photos;
use crate::ui::parts::{Foot, GoButton, Note, Pair, QuietButton, Title, Tone};
use crate::ui::steps::{CaseScreen, Here, use_here};
use crate::ui::tap::turn;
use crate::ui::words::looking as said;
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// A photo that was taken and not kept yet.
struct Taken {
    picture: Picture,
    url: ObjectUrl,
}

/// How the taking of a photo stands. What holds the camera lets it go when it is replaced.
#[derive(Clone)]
enum State {
    Opening,
    Live(Rc<Camera>),
    Without(NoCamera),
    Reading,
    Shown(Arc<Taken>),
    Keeping(Arc<Taken>),
}

/// The way from the camera to a photo that is kept. Copied freely.
#[derive(Clone, Copy)]
struct Lens {
    here: Here,
    draft: Draft,
    state: RwSignal<State, LocalStorage>,
    problem: RwSignal<Option<String>>,
    video: NodeRef<html::Video>,
    app: NodeRef<html::Input>,
    album: NodeRef<html::Input>,
}

impl Lens {
    fn set(self, state: State) {
        // The screen may be gone by now; what is not set is let go.
        drop(self.state.try_set(state));
    }

    /// Opens the camera.
    fn open(self) {
        self.problem.set(None);
        self.set(State::Opening);
        spawn_local(async move {
            let opened = Camera::open(move || self.set(State::Without(NoCamera::Failed))).await;
            let waited = self.state.try_with_untracked(|state| matches!(state, State::Opening));
            if waited == Some(true) {
                self.set(opened.map_or_else(State::Without, |camera| State::Live(Rc::new(camera))));
            }
        });
    }

    /// Lets the camera go.
    fn stop(self) {
        let open =
            self.state.try_with_untracked(|state| matches!(state, State::Opening | State::Live(_)));
        if open == Some(true) {
            self.set(State::Without(NoCamera::Stopped));
        }
    }

    /// Takes what the camera shows.
    fn shoot(self) {
        let Some(video) = self.video.get_untracked() else { return };
        spawn_local(async move { self.took(take_frame(&video).await) });
    }

    /// Opens a chooser of pictures, or the camera's own app, which needs the camera.
    fn press(self, input: NodeRef<html::Input>) {
        self.stop();
        if let Some(input) = input.get_untracked() {
            input.click();
        }
    }

    /// Reads the file that was chosen.
    fn chosen(self, input: NodeRef<html::Input>) {
        let Some(input) = input.get_untracked() else { return };
        let file = input.files().and_then(|files| files.get(0));
        // So that the same file chosen again is told again.
        input.set_value("");
        if let Some(file) = file {
            self.set(State::Reading);
            spawn_local(async move { self.took(take_in(file).await) });
        }
    }

    fn took(self, took: Result<Picture, Unreadable>) {
        let shown = took.ok().and_then(|picture| {
            let url = ObjectUrl::of(&picture.bytes)?;
            Some(State::Shown(Arc::new(Taken { picture, url })))
        });
        let problem = shown.is_none().then(|| said::not_read().to_owned());
        drop(self.problem.try_set(problem));
        match shown {
            Some(shown) => self.set(shown),
            // A camera that shows nothing yet is asked again.
            None if self.state.try_with_untracked(|state| matches!(state, State::Live(_)))
                == Some(true) => {}
            None => self.set(State::Without(NoCamera::Absent)),
        }
    }

    /// Keeps the photo, and goes back to the look with it.
    fn keep(self, taken: Arc<Taken>) {
        self.set(State::Keeping(Arc::clone(&taken)));
        spawn_local(async move {
            let picture = &taken.picture;
            let extent = Extent { width: picture.width, height: picture.height };
            let photo = Photo { name: Hash::of(&picture.bytes), extent };
            match photos::keep(&picture.bytes).await {
                Ok(_) => {
                    self.here.record(Event::Photo(photo));
                    self.draft.photo.try_set(Some(photo.name));
                    self.draft.part.try_set(Part::Skin);
                }
                Err(why) => {
                    drop(self.problem.try_set(Some(said::not_kept(&why))));
                    self.set(State::Shown(taken));
                }
            }
        });
    }

    fn leave(self) {
        turn(self.draft.part, Part::Skin);
    }
}

/// The screen of the photo.
#[component]
pub fn PhotoScreen(draft: Draft, rail: bool) -> impl IntoView {
    let here = use_here();
    let lens = Lens {
        here,
        draft,
        state: RwSignal::new_local(State::Opening),
        problem: RwSignal::new(None),
        video: NodeRef::new(),
        app: NodeRef::new(),
        album: NodeRef::new(),
    };
    let earlier = Earlier::of(&here.now());
    lens.open();
    let seen = window_event_listener(leptos::ev::visibilitychange, move |_| {
        if document().hidden() {
            lens.stop();
        }
    });
    on_cleanup(move || seen.remove());
    let title = if earlier.wanted() { said::photo_heading() } else { said::photo_first() };
    view! {
        <CaseScreen step=Step::Rounds fraction=0.8 rail back=Callback::new(move |()| lens.leave())>
            <Title arrive=true>{title}</Title>
            {move || {
                lens.problem
                    .get()
                    .map(|words| {
                        view! {
                            <Note tone=Tone::Caution alert=true>
                                {words}
                            </Note>
                        }
                    })
            }}
            <Stage lens earlier />
            <p class="hint">{said::stays()}</p>
            <Inputs lens />
            <Foot slot>
                <Actions lens />
            </Foot>
        </CaseScreen>
    }
}

/// What is seen: the camera, the photo just taken, or words.
#[component]
fn Stage(lens: Lens, earlier: Earlier) -> impl IntoView {
    let hint = move |of: &'static str| if earlier.wanted() { of } else { said::no_earlier() };
    move || {
        match lens.state.get() {
        State::Opening => view! { <Note>{said::opening()}</Note> }.into_any(),
        State::Reading => view! { <Note>{said::reading_file()}</Note> }.into_any(),
        State::Without(why) => {
            view! { <Note tone=Tone::Caution>{said::no_camera(why)}</Note> }.into_any()
        }
        State::Live(_) => view! {
            <div class="laid-place">
                <Laid earlier>
                    <Sight lens />
                </Laid>
                <Controls earlier />
                <p class="hint">{hint(said::line_up())}</p>
            </div>
        }
        .into_any(),
        State::Shown(taken) | State::Keeping(taken) => view! {
            <div class="laid-place">
                <Laid earlier>
                    <img class="laid-under" src=taken.url.as_str().to_owned() alt=said::taken_label() />
                </Laid>
                <Controls earlier />
                <p class="hint">{hint(said::compare())}</p>
            </div>
        }
        .into_any(),
    }
    }
}

/// What the camera sees.
#[component]
fn Sight(lens: Lens) -> impl IntoView {
    Effect::new(move |_| {
        let Some(video) = lens.video.get() else { return };
        if let State::Live(camera) = lens.state.get_untracked() {
            camera.show_in(&video);
        }
    });
    view! {
        <video
            node_ref=lens.video
            class="laid-under"
            aria-label=said::live()
            prop:muted=true
            autoplay
            playsinline
        ></video>
    }
}

/// What can be done.
#[component]
fn Actions(lens: Lens) -> impl IntoView {
    let without = move || {
        lens.draft.photo.get_untracked().is_none().then(|| {
            view! { <QuietButton on_press=move |()| lens.leave()>{said::without()}</QuietButton> }
        })
    };
    let app = move || {
        view! {
            <GoButton on_press=move |()| lens.press(lens.app)>{said::camera_app()}</GoButton>
            <Pair>
                <QuietButton on_press=move |()| {
                    lens.press(lens.album);
                }>{said::choose()}</QuietButton>
                {without()}
            </Pair>
        }
    };
    move || {
        match lens.state.get() {
        State::Opening => app().into_any(),
        State::Without(why) => view! {
            {app()}
            {(why != NoCamera::Absent)
                .then(|| {
                    view! {
                        <QuietButton on_press=move |()| lens.open()>{said::open_again()}</QuietButton>
                    }
                })}
        }
        .into_any(),
        State::Live(_) => view! {
            <GoButton on_press=move |()| lens.shoot()>{said::shutter()}</GoButton>
            <Pair>
                <QuietButton on_press=move |()| {
                    lens.press(lens.album);
                }>{said::choose()}</QuietButton>
                {without()}
            </Pair>
        }
        .into_any(),
        State::Reading => without().into_any(),
        State::Keeping(_) => view! { <p role="status">{said::keeping()}</p> }.into_any(),
        State::Shown(taken) => view! {
            <GoButton on_press=move |()| {
                lens.keep(Arc::clone(&taken));
            }>{said::keep()}</GoButton>
            <Pair>
                <QuietButton on_press=move |()| lens.open()>{said::again()}</QuietButton>
                {without()}
            </Pair>
        }
        .into_any(),
    }
    }
}

/// The two ways to a file, unseen: buttons open them.
#[component]
fn Inputs(lens: Lens) -> impl IntoView {
    view! {
        <input
            node_ref=lens.app
            class="unseen"
            type="file"
            accept="image/*"
            capture="environment"
            tabindex="-1"
            aria-hidden="true"
            on:change=move |_| lens.chosen(lens.app)
        />
        <input
            node_ref=lens.album
            class="unseen"
            type="file"
            accept="image/*"
            tabindex="-1"
            aria-hidden="true"
            on:change=move |_| lens.chosen(lens.album)
        />
    }
}

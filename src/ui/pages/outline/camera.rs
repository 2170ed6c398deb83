//! Taking a photo or choosing one, and keeping it.

use super::easel::{Easel, use_easel};
use crate::care::territory::Photo;
use crate::case::Event;
use crate::measure::Hash;
use crate::phone::picture::{Picture, Unreadable, take_in};
use crate::plane::Extent;
use crate::store::{Refusal, photos};
use crate::ui::parts::{Note, Tone};
use crate::ui::photo::Fetched;
use crate::ui::words::sketching as said;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

/// How the taking of a photo stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taking {
    /// None is being taken.
    Idle,
    /// One is being read.
    Reading,
    /// One could not be read.
    Failed(Unreadable),
}

/// The way from the phone's camera to a photo that is drawn on. Copied freely; provided as context
/// by the page.
#[derive(Clone, Copy)]
pub struct Camera {
    easel: Easel,
    /// How it stands.
    pub taking: RwSignal<Taking>,
    /// Why the photo in use is in memory only.
    unkept: RwSignal<Option<(Hash, Refusal)>>,
    lens: NodeRef<html::Input>,
    album: NodeRef<html::Input>,
}

impl Camera {
    /// With nothing taken.
    pub fn new() -> Self {
        Self {
            easel: use_easel(),
            taking: RwSignal::new(Taking::Idle),
            unkept: RwSignal::new(None),
            lens: NodeRef::new(),
            album: NodeRef::new(),
        }
    }

    /// Opens the phone's camera. Works within a tap only.
    pub fn take(self) {
        press(self.lens);
    }

    /// Opens the phone's own pictures. Works within a tap only.
    pub fn choose(self) {
        press(self.album);
    }

    /// Uses the photo that was taken last in this case.
    pub fn again(self, photo: Photo) {
        self.taking.set(Taking::Idle);
        self.easel.change(|work| work.use_photo(photo));
    }

    /// What was not kept, if it is the photo in use; tracked.
    fn unkept(self) -> Option<Refusal> {
        let name = self.easel.work.read().shot().map(|shot| shot.photo.name)?;
        self.unkept.get().filter(|(unkept, _)| *unkept == name).map(|(_, why)| why)
    }

    fn read(self, file: File) {
        self.taking.set(Taking::Reading);
        spawn_local(async move {
            match take_in(file).await {
                Ok(picture) => self.keep(picture).await,
                // The screen may be gone by now.
                Err(why) => drop(self.taking.try_set(Taking::Failed(why))),
            }
        });
    }

    /// Keeps a photo and draws on it. What cannot be kept is drawn on all the same: the outline
    /// counts, not the photo.
    async fn keep(self, picture: Picture) {
        let extent = Extent { width: picture.width, height: picture.height };
        let photo = Photo { name: Hash::of(&picture.bytes), extent };
        let here = self.easel.here;
        match photos::keep(&picture.bytes).await {
            Ok(_) => here.record(Event::Photo(photo)),
            Err(why) => drop(self.unkept.try_set(Some((photo.name, why)))),
        }
        if self.taking.try_set(Taking::Idle).is_none() {
            self.easel.photo.set((Some(photo.name), Fetched::of(&picture.bytes)));
            self.easel.change(|work| work.use_photo(photo));
        }
    }
}

/// The way to a photo.
///
/// # Panics
/// If no page above provided it.
pub fn use_camera() -> Camera {
    expect_context::<Camera>()
}

fn press(input: NodeRef<html::Input>) {
    if let Some(input) = input.get_untracked() {
        input.click();
    }
}

/// The two ways in, unseen: buttons open them.
#[component]
pub fn Inputs() -> impl IntoView {
    let camera = use_camera();
    let taken = move |input: NodeRef<html::Input>| {
        let Some(input) = input.get_untracked() else { return };
        let file = input.files().and_then(|files| files.get(0));
        // So that the same file chosen again is told again.
        input.set_value("");
        if let Some(file) = file {
            camera.read(file);
        }
    };
    view! {
        <input
            node_ref=camera.lens
            class="unseen"
            type="file"
            accept="image/*"
            capture="environment"
            tabindex="-1"
            aria-hidden="true"
            on:change=move |_| taken(camera.lens)
        />
        <input
            node_ref=camera.album
            class="unseen"
            type="file"
            accept="image/*"
            tabindex="-1"
            aria-hidden="true"
            on:change=move |_| taken(camera.album)
        />
    }
}

/// What a photo is for, before there is one.
#[component]
pub fn BeforePhoto() -> impl IntoView {
    let camera = use_camera();
    view! {
        <div class="sketch-rest">
            <p>{said::lay_card()}</p>
            {move || match camera.taking.get() {
                Taking::Idle => None,
                Taking::Reading => Some(view! { <Note>{said::reading()}</Note> }.into_any()),
                Taking::Failed(why) => {
                    Some(
                        view! {
                            <Note tone=Tone::Caution alert=true>
                                {said::unreadable(why)}
                            </Note>
                        }
                            .into_any(),
                    )
                }
            }}
            <p class="hint">{said::stays_here()} " " {said::consent()}</p>
        </div>
    }
}

/// That the photo in use is in memory only.
#[component]
pub fn PhotoNotKept() -> impl IntoView {
    let camera = use_camera();
    move || {
        camera.unkept().map(|why| {
            view! {
                <Note tone=Tone::Caution alert=true>
                    {said::not_kept(&why)}
                </Note>
            }
        })
    }
}

/// That the photo in use is not on this phone.
#[component]
pub fn PhotoGone() -> impl IntoView {
    let fetched = use_easel().fetched();
    move || {
        matches!(fetched.get(), Fetched::Gone).then(|| {
            view! {
                <Note tone=Tone::Caution alert=true>
                    {said::photo_gone()}
                </Note>
            }
        })
    }
}

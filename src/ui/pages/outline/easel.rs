//! What the screens of the page share: the work, what it comes to, and the ways to change it.

use super::closing::closed;
use super::draft;
use super::hand::Place;
use super::window::Window;
use super::work::{On, Work, Wrong, fitting};
use crate::care::territory::{Ground, Outlined, Refused, Size, Territory};
use crate::measure::{Area, Hash, Length};
use crate::plane::{Kind, Sketch, Stroke, Traced, Unscaled};
use crate::protocol::Quantity;
use crate::ui::photo::{Fetched, fetch};
use crate::ui::rehearsal::rehearsed;
use crate::ui::skin::Picture;
use crate::ui::steps::Here;
use crate::ui::words::numbers;
use crate::ui::words::{sketching as said, typed};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What one finger does to the skin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// Goes round what belongs to it.
    Draw,
    /// Goes round what does not.
    LeaveOut,
    /// Pulls an edge.
    Shape,
}

/// What is to be said of the last thing done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remark {
    /// The stroke goes round nothing.
    Line,
    /// Some of the stroke lies where the photo cannot be measured.
    OutOfReach,
}

/// Why what is drawn cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// Corners were tapped, and their round is not closed.
    Corners,
    /// There is no outline.
    Outline(Wrong),
    /// It is no territory.
    Territory(Refused),
    /// The patient's length that the drawing is fitted to is none.
    Length(String),
    /// The size is odd, and nobody has looked again.
    Sure(Area),
}

/// The work and what it comes to. Copied freely; provided as context by the page.
#[derive(Clone, Copy)]
pub struct Easel {
    /// The case.
    pub here: Here,
    /// Whether what is drawn outlives the page: not in a rehearsal.
    kept: bool,
    /// What is being drawn.
    pub work: RwSignal<Work>,
    /// What one finger does.
    pub mode: RwSignal<Mode>,
    /// The stroke under the finger, on the canvas.
    pub live: RwSignal<Vec<Place>>,
    /// Corners tapped one by one, in the picture, until their round is closed: for whoever does not
    /// drag a finger.
    pub corners: RwSignal<Vec<Place>>,
    /// The part of the picture that is shown.
    pub window: RwSignal<Option<Window>>,
    /// What was typed as the patient's length for the drawing.
    pub length: RwSignal<String>,
    /// What is to be said of the last thing done.
    pub remark: RwSignal<Option<Remark>>,
    /// The size after the last thing done, for a screen reader.
    pub told: RwSignal<String>,
    /// The photo in use: its name, and itself once it is there.
    pub photo: RwSignal<(Option<Hash>, Fetched)>,
    /// The picture that is drawn on; none where there is none yet.
    pub picture: Memo<Option<Result<Picture, Unscaled>>>,
    /// What is drawn, on the skin.
    pub drawn: Memo<Result<Traced, Wrong>>,
    /// The surface and the patches as they are drawn, with the stroke under the finger.
    pub size: Memo<Option<(Area, usize)>>,
    /// What was drawn last, as it was recorded.
    pub last: StoredValue<Option<Work>>,
    /// An odd size that was looked at again and stands.
    sure: RwSignal<Option<Area>>,
}

impl Easel {
    /// On what was being drawn, else on the ground of what was drawn last, else on the drawing that
    /// fits. What was drawn last is only shown: a smaller outline drawn into it would else add nothing
    /// to it, and the skin would seem not to have changed.
    pub fn new(here: Here) -> Self {
        let case = here.now();
        let before = case.territory();
        let deleted = |name| case.is_deleted(name);
        // On a deleted photo it is not gone on with: nobody sees what was drawn round.
        let last = before.and_then(Territory::outlined).filter(|drawn| match &drawn.ground {
            Ground::Photo { photo, .. } => !deleted(photo.name),
            Ground::Drawing { .. } => true,
        });
        let last = last.and_then(Work::of);
        let anew = last.as_ref().map(Work::emptied);
        let kept = draft::kept(here.id).map(|work| work.passing_over(deleted));
        let work = kept.or(anew).unwrap_or_else(|| {
            Work::on_view(fitting(before.map(Territory::zones).unwrap_or_default()))
        });
        let length = length_of(&work);
        let work = RwSignal::new(work);
        let ground = Memo::new(move |_| work.read().ground());
        let picture = Memo::new(move |_| ground.read().as_ref().map(Picture::of));
        let drawn = Memo::new(move |_| match &*picture.read() {
            Some(Ok(picture)) => work.read().traced(picture, None),
            _ => Err(Wrong::Nothing),
        });
        let photo = RwSignal::new((None, Fetched::default()));
        let (mode, window) = (RwSignal::new(Mode::Draw), RwSignal::new(None));
        let live = RwSignal::new(Vec::new());
        let size = Memo::new(move |_| {
            let of = |traced: &Traced| (traced.outline.area(), traced.outline.patches().len());
            let live = live.read();
            let with = (live.len() > 2).then(|| {
                let stroke = stroke((work, picture, window, mode), &live)?;
                let picture = picture.read();
                work.read().traced(picture.as_ref()?.as_ref().ok()?, Some(stroke)).ok()
            });
            let with = with.flatten();
            with.as_ref().map(of).or_else(|| drawn.read().as_ref().ok().map(of))
        });
        let easel = Self {
            here,
            kept: !rehearsed(),
            work,
            mode,
            live,
            corners: RwSignal::new(Vec::new()),
            window,
            length: RwSignal::new(length),
            remark: RwSignal::new(None),
            told: RwSignal::new(String::new()),
            photo,
            picture,
            drawn,
            size,
            last: StoredValue::new(last),
            // It was looked at when it was recorded.
            sure: RwSignal::new(before.map(Territory::area)),
        };
        let name = Memo::new(move |_| work.read().shot().map(|shot| shot.photo.name));
        Effect::new(move |_| easel.show(name.get()));
        easel
    }

    /// Fetches the photo of this name unless it is there.
    fn show(self, name: Option<Hash>) {
        if self.photo.read_untracked().0 == name {
            return;
        }
        let deleted = name.is_some_and(|name| self.here.now().is_deleted(name));
        self.photo.set((name, if deleted { Fetched::Gone } else { Fetched::Waiting }));
        if let Some(name) = name.filter(|_| !deleted) {
            spawn_local(async move {
                let fetched = fetch(name).await;
                // By now the screen may be gone, or show another.
                self.photo.try_update(|photo| {
                    if photo.0 == Some(name) {
                        photo.1 = fetched;
                    }
                });
            });
        }
    }

    /// The photo in use, once it is there.
    pub fn fetched(self) -> Signal<Fetched> {
        Signal::derive(move || self.photo.read().1.clone())
    }

    /// Changes the work for good: kept at once, in case the page is ended.
    pub fn change(self, how: impl FnOnce(&mut Work)) {
        self.work.update(how);
        self.keep();
    }

    /// Keeps the work as it is, after a change under a finger.
    pub fn keep(self) {
        if self.kept {
            self.work.with_untracked(|work| draft::keep(self.here.id, work));
        }
        let size = self.drawn.with_untracked(|drawn| match drawn {
            Ok(traced) => said::drawn(traced.outline.area(), traced.outline.patches().len()),
            Err(_) => String::new(),
        });
        self.told.set(size);
    }

    /// Looks at something else.
    pub fn look_at(self, on: On) {
        self.remark.set(None);
        self.live.set(Vec::new());
        self.corners.set(Vec::new());
        self.change(|work| work.look_at(on));
        self.length.set(self.work.with_untracked(length_of));
    }

    /// What was drawn last, if it lies on what is looked at; tracked.
    pub fn last_strokes(self) -> Option<Vec<Stroke>> {
        let work = self.work.read();
        self.last.with_value(|last| work.strokes_of(last.as_ref()?))
    }

    /// Goes on with what was drawn last.
    pub fn take_last(self) {
        if let Some(strokes) = untrack(|| self.last_strokes()) {
            self.draw(|sketch| sketch.replace(strokes));
            self.keep();
        }
    }

    /// Changes what is drawn; what was remarked is past.
    pub fn draw<T>(self, how: impl FnOnce(&mut Sketch) -> T) -> Option<T> {
        self.remark.set(None);
        self.work.try_update(|work| work.sketch_mut().map(how)).flatten()
    }

    /// One more corner, at this place of the canvas.
    pub fn corner(self, at: Place) {
        let Some(window) = self.window.get_untracked() else { return };
        self.remark.set(None);
        self.corners.update(|corners| corners.push(window.to_picture(at)));
    }

    /// Closes the round of the corners tapped, which is then a stroke like any other.
    pub fn close(self) {
        let corners = self.corners.get_untracked();
        let stroke = untrack(|| {
            let picture = self.picture.read();
            self.work.read().stroke(picture.as_ref()?.as_ref().ok()?, kind(self.mode), &corners)
        });
        self.corners.set(Vec::new());
        self.add(stroke);
    }

    /// Adds a stroke to what is drawn, or says why it does not; `None` is one out of reach.
    pub fn add(self, stroke: Option<Stroke>) {
        let Some(stroke) = stroke else {
            self.remark.set(Some(Remark::OutOfReach));
            return;
        };
        match self.draw(|sketch| sketch.draw(stroke)) {
            Some(Ok(())) => self.keep(),
            Some(Err(_)) => self.remark.set(Some(Remark::Line)),
            None => {}
        }
    }

    /// Takes the last corner or the last change back.
    pub fn undo(self) {
        if !self.corners.read_untracked().is_empty() {
            self.corners.update(|corners| corners.truncate(corners.len() - 1));
            return;
        }
        self.draw(Sketch::undo);
        self.keep();
    }

    /// Takes everything away.
    pub fn clear(self) {
        self.corners.set(Vec::new());
        self.draw(Sketch::clear);
        self.keep();
    }

    /// The stroke that runs through these places of the canvas.
    pub fn stroke(self, places: &[Place]) -> Option<Stroke> {
        let on = (self.work, self.picture, self.window, self.mode);
        untrack(|| stroke(on, places))
    }

    /// What was typed as the patient's length, tracked; `None` as long as nothing is.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub fn patients_length(self) -> Result<Option<Length>, String> {
        let On::View(view) = self.work.read().on() else { return Ok(None) };
        let Some(length) = typed::field::<Length>(&self.length.read())? else { return Ok(None) };
        let (low, high) = view.measure().which.bounds();
        if (low..=high).contains(&length) {
            Ok(Some(length))
        } else {
            Err(typed::out_of_bounds(Quantity::Length(low), Quantity::Length(high)))
        }
    }

    /// The patient's length was typed.
    pub fn type_length(self, text: String) {
        self.length.set(text);
        let length = untrack(|| self.patients_length());
        self.change(|work| {
            if let (On::View(view), Ok(length)) = (work.on(), length) {
                work.measure(view, length);
            }
        });
    }

    /// The size is odd and stands.
    pub fn is_sure(self, area: Area) {
        self.sure.set(Some(area));
    }

    /// The territory that comes of it, tracked: the zones told before and those drawn.
    ///
    /// # Errors
    /// What is missing.
    pub fn territory(self) -> Result<Territory, Missing> {
        if !self.corners.read().is_empty() {
            return Err(Missing::Corners);
        }
        self.patients_length().map_err(Missing::Length)?;
        let drawn = self.drawn.read();
        let outline = &drawn.as_ref().map_err(|wrong| Missing::Outline(*wrong))?.outline;
        let nothing = Missing::Outline(Wrong::Nothing);
        let work = self.work.read();
        let ground: Ground = work.ground().ok_or(nothing.clone())?;
        let picture = self.picture.read();
        let Some(Ok(picture)) = &*picture else { return Err(nothing) };
        let case = self.here.case();
        let mut zones = case.territory().map(|told| told.zones().to_vec()).unwrap_or_default();
        zones.extend(work.zones(picture, outline));
        let size = Size::Outlined(Box::new(Outlined { ground, outline: outline.clone() }));
        let territory = Territory::new(zones, size, &case.protocol).map_err(Missing::Territory)?;
        if territory.questioned(&case.protocol) && self.sure.get() != Some(territory.area()) {
            return Err(Missing::Sure(territory.area()));
        }
        Ok(territory)
    }
}

/// The work on this page.
///
/// # Panics
/// If no page above provided it.
pub fn use_easel() -> Easel {
    expect_context::<Easel>()
}

/// What a stroke is drawn with: on what, through which window, and as what.
type Drawing = (
    RwSignal<Work>,
    Memo<Option<Result<Picture, Unscaled>>>,
    RwSignal<Option<Window>>,
    RwSignal<Mode>,
);

/// The stroke that runs through these places of the canvas, tracked.
fn stroke((work, picture, window, mode): Drawing, places: &[Place]) -> Option<Stroke> {
    let window = window.get()?;
    let places: Vec<Place> = closed(places).iter().map(|at| window.to_picture(*at)).collect();
    let picture = picture.read();
    work.read().stroke(picture.as_ref()?.as_ref().ok()?, kind(mode), &places)
}

/// What a stroke goes round, tracked.
fn kind(mode: RwSignal<Mode>) -> Kind {
    match mode.get() {
        Mode::LeaveOut => Kind::Hole,
        Mode::Draw | Mode::Shape => Kind::Skin,
    }
}

/// The patient's length as text, for the drawing that is looked at.
fn length_of(work: &Work) -> String {
    let On::View(view) = work.on() else { return String::new() };
    work.measured(view).map(|length| numbers::typed(&length)).unwrap_or_default()
}

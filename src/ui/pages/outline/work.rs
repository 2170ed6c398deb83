//! What is being drawn, before it is recorded: one sketch for each ground, so that looking at another
//! loses nothing.
//!
//! Sketches lie in the plane of the picture, not on the skin: a drawing that is fitted to the patient
//! later, or a card whose corners are moved, then changes the size of what was drawn and not its
//! place.

use super::hand::Place;
use super::shot::Shot;
use crate::care::territory::{Ground, Outlined, Photo};
use crate::measure::{Hash, Length};
use crate::plane::{Kind, Outline, Sketch, Spot, Stroke, Traced, Untraceable, simplified, trace};
use crate::protocol::face::View;
use crate::protocol::zone::Zone;
use crate::ui::skin::Picture;
use serde::{Deserialize, Serialize};

/// How far a stroke may be from where the finger went, once it has fewer places: less than a finger
/// can mean.
const TOLERANCE: Length = Length::tenths(2);
/// No side of a stroke is longer, in millimetres: an edge is pulled by its places.
const LONGEST_SIDE: f64 = 2.0;
/// Places of a sketch in one pixel of a photo. On a face they are the drawing's own.
const PER_PIXEL: f64 = 100.0;

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum On {
    /// The drawing of a face.
    View(View),
    /// The photo taken last.
    Photo,
    /// A photo that is still to be taken or chosen.
    NewPhoto,
}

/// A drawing of the face with what was drawn on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Leaf {
    view: View,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    measured: Option<Length>,
    sketch: Sketch,
}

/// Everything that is being drawn.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Work {
    on: On,
    leaves: Vec<Leaf>,
    /// Photos, the one in use last.
    shots: Vec<Shot>,
}

/// Why there is no outline yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// Nothing is drawn.
    Nothing,
    /// What is drawn goes round nothing.
    Line,
    /// What was left out takes all of it away.
    AllOut,
    /// Too many strokes.
    TooMuch,
    /// Some of it lies where the photo cannot be measured.
    OutOfReach,
}

impl Work {
    /// On a drawing, with nothing drawn.
    pub const fn on_view(view: View) -> Self {
        Self { on: On::View(view), leaves: Vec::new(), shots: Vec::new() }
    }

    /// To go on from what was drawn last; `None` if its photo cannot be measured.
    pub fn of(drawn: &Outlined) -> Option<Self> {
        let picture = Picture::of(&drawn.ground).ok()?;
        let grain = match drawn.ground {
            Ground::Drawing { .. } => 1.0,
            Ground::Photo { .. } => PER_PIXEL,
        };
        let before = Sketch::of(&drawn.outline);
        let strokes = before.strokes().iter().map(|stroke| {
            let places = split(&stroke.spots).into_iter().map(|spot| picture.show(spot));
            let spots = places.map(|place| spot_at(place?, grain)).collect::<Option<_>>()?;
            Some(Stroke { kind: stroke.kind, spots })
        });
        let sketch = Sketch::of_strokes(strokes.collect::<Option<_>>()?);
        let nothing = Self::on_view(View::Front);
        Some(match &drawn.ground {
            Ground::Drawing { view, measured } => Self {
                on: On::View(*view),
                leaves: vec![Leaf { view: *view, measured: *measured, sketch }],
                ..nothing
            },
            Ground::Photo { photo, scale } => Self {
                on: On::Photo,
                shots: vec![Shot::measured(*photo, scale, sketch)],
                ..nothing
            },
        })
    }

    /// The same grounds, measured the same way, with nothing drawn on them.
    pub fn emptied(&self) -> Self {
        let mut work = self.clone();
        for leaf in &mut work.leaves {
            leaf.sketch = Sketch::default();
        }
        for shot in &mut work.shots {
            shot.sketch = Sketch::default();
        }
        work
    }

    /// The strokes that lie on what is looked at in another work; `None` where there is none, or it
    /// is another ground there.
    pub fn strokes_of(&self, other: &Self) -> Option<Vec<Stroke>> {
        let photo = |work: &Self| work.shot().map(|shot| shot.photo);
        let same = self.on == other.on && (self.on != On::Photo || photo(self) == photo(other));
        let strokes = other.sketch().filter(|_| same)?.strokes();
        (!strokes.is_empty()).then(|| strokes.to_vec())
    }

    /// What is looked at.
    pub const fn on(&self) -> On {
        self.on
    }

    /// Looks at something else. A photo only if there is one.
    pub fn look_at(&mut self, on: On) {
        self.on = match on {
            On::Photo if self.shots.is_empty() => On::NewPhoto,
            other => other,
        };
    }

    /// Uses a photo: one that was used before, as it was left.
    pub fn use_photo(&mut self, photo: Photo) {
        let before = self.shots.iter().position(|shot| shot.photo == photo);
        let shot = match before {
            Some(place) => self.shots.remove(place),
            None => Shot::new(photo),
        };
        self.shots.push(shot);
        self.on = On::Photo;
    }

    /// Without photos that were deleted, so that none is drawn on anew. One on which something is
    /// drawn stays, unseen: a stroke is not lost.
    #[must_use]
    pub fn passing_over(mut self, deleted: impl Fn(Hash) -> bool) -> Self {
        self.shots.retain(|shot| !shot.sketch.is_empty() || !deleted(shot.photo.name));
        self.look_at(self.on);
        self
    }

    /// The photo in use, whether it is looked at or not.
    pub fn shot(&self) -> Option<&Shot> {
        self.shots.last()
    }

    /// The same, to be changed.
    pub fn shot_mut(&mut self) -> Option<&mut Shot> {
        self.shots.last_mut()
    }

    /// The patient's own length that a drawing is fitted to.
    pub fn measured(&self, view: View) -> Option<Length> {
        let same = |leaf: &&Leaf| leaf.view.measure().which == view.measure().which;
        self.leaves.iter().find(same)?.measured
    }

    /// Fits every drawing of the same length to the patient.
    pub fn measure(&mut self, view: View, measured: Option<Length>) {
        self.leaf(view).measured = measured;
        let which = view.measure().which;
        for leaf in self.leaves.iter_mut().filter(|leaf| leaf.view.measure().which == which) {
            leaf.measured = measured;
        }
    }

    /// What is drawn on what is looked at; `None` where nothing can be drawn.
    pub fn sketch(&self) -> Option<&Sketch> {
        match self.on {
            On::View(view) => Some(&self.leaves.iter().find(|leaf| leaf.view == view)?.sketch),
            On::Photo => self.shot().map(|shot| &shot.sketch),
            On::NewPhoto => None,
        }
    }

    /// The same, to be changed.
    pub fn sketch_mut(&mut self) -> Option<&mut Sketch> {
        match self.on {
            On::View(view) => Some(&mut self.leaf(view).sketch),
            On::Photo => self.shots.last_mut().map(|shot| &mut shot.sketch),
            On::NewPhoto => None,
        }
    }

    /// Whether nothing is drawn on what is looked at.
    pub fn is_empty(&self) -> bool {
        self.sketch().is_none_or(Sketch::is_empty)
    }

    /// What is drawn on, once it can be measured.
    pub fn ground(&self) -> Option<Ground> {
        match self.on {
            On::View(view) => Some(Ground::Drawing { view, measured: self.measured(view) }),
            On::Photo => {
                let shot = self.shot().filter(|shot| shot.settled)?;
                Some(Ground::Photo { photo: shot.photo, scale: shot.scale()? })
            }
            On::NewPhoto => None,
        }
    }

    /// The place of the sketch that a place of the picture is.
    pub fn spot(&self, place: Place) -> Option<Spot> {
        spot_at(place, self.grain())
    }

    /// The place of the picture that a place of the sketch is.
    pub fn place(&self, spot: Spot) -> Place {
        (f64::from(spot.x) / self.grain(), f64::from(spot.y) / self.grain())
    }

    /// A length in the picture, as the sketch counts millimetres.
    pub fn sketch_mm(&self, units: f64) -> f64 {
        units * self.grain() / f64::from(Spot::PER_MM)
    }

    /// The stroke of a finger that ran through these places of the picture; `None` where some cannot
    /// be measured.
    pub fn stroke(&self, picture: &Picture, kind: Kind, places: &[Place]) -> Option<Stroke> {
        let skin: Option<Vec<Spot>> = places.iter().map(|place| picture.read(*place)).collect();
        let skin = split(&simplified(&skin?, TOLERANCE));
        let spots = skin.into_iter().map(|spot| self.spot(picture.show(spot)?));
        Some(Stroke { kind, spots: spots.collect::<Option<_>>()? })
    }

    /// What is drawn, on the skin; with one more stroke that is not finished yet.
    ///
    /// # Errors
    /// [`Wrong`] while that is no outline.
    pub fn traced(&self, picture: &Picture, more: Option<Stroke>) -> Result<Traced, Wrong> {
        let drawn = self.sketch().map(Sketch::strokes).unwrap_or_default();
        let on_skin = |stroke: &Stroke| {
            let spots = stroke.spots.iter().map(|spot| picture.read(self.place(*spot)));
            Some(Stroke { kind: stroke.kind, spots: spots.collect::<Option<_>>()? })
        };
        let strokes: Option<Vec<Stroke>> = drawn.iter().chain(&more).map(on_skin).collect();
        let strokes = strokes.ok_or(Wrong::OutOfReach)?;
        trace(&strokes).map_err(|why| match why {
            Untraceable::Empty => Wrong::Nothing,
            Untraceable::NoArea if strokes.iter().any(|stroke| stroke.kind == Kind::Hole) => {
                Wrong::AllOut
            }
            Untraceable::TooFew | Untraceable::NoArea => Wrong::Line,
            Untraceable::TooMany => Wrong::TooMuch,
        })
    }

    /// The zones that an outline on a drawing takes in: those drawn as a whole, and those in which
    /// the middle of a patch lies.
    pub fn zones(&self, picture: &Picture, outline: &Outline) -> Vec<Zone> {
        let On::View(view) = self.on else { return Vec::new() };
        let strokes = self.sketch().map(Sketch::strokes).unwrap_or_default();
        let whole = view.zones().into_iter().filter(|(_, ring)| is_drawn(strokes, ring));
        let middles = outline.patches().iter().filter_map(|patch| {
            let spots = patch.outer.spots().to_vec();
            let alone = trace(&[Stroke { kind: Kind::Skin, spots }]).ok()?.outline;
            view.zone_at(self.spot(picture.show(alone.centre()?)?)?)
        });
        whole.map(|(zone, _)| zone).chain(middles).collect()
    }

    fn leaf(&mut self, view: View) -> &mut Leaf {
        let place = self.leaves.iter().position(|leaf| leaf.view == view).unwrap_or_else(|| {
            let same = |leaf: &&Leaf| leaf.view.measure().which == view.measure().which;
            let measured = self.leaves.iter().find(same).and_then(|leaf| leaf.measured);
            self.leaves.push(Leaf { view, measured, sketch: Sketch::default() });
            self.leaves.len() - 1
        });
        &mut self.leaves[place]
    }

    const fn grain(&self) -> f64 {
        match self.on {
            On::View(_) => 1.0,
            On::Photo | On::NewPhoto => PER_PIXEL,
        }
    }
}

/// Whether a zone of the drawing is drawn as a whole, and nothing of it was changed since.
pub fn is_drawn(strokes: &[Stroke], ring: &[Spot]) -> bool {
    strokes.iter().any(|stroke| stroke.kind == Kind::Skin && stroke.spots == ring)
}

/// The drawing on which these zones are best drawn round. For what has two sides it is the front,
/// which shows both: nobody should draw on the wrong one because it came up first.
pub fn fitting(zones: &[Zone]) -> View {
    let lip = |zone: &Zone| matches!(zone, Zone::UpperLip | Zone::LowerLip);
    if !zones.is_empty() && zones.iter().all(lip) { View::Lips } else { View::Front }
}

fn spot_at((x, y): Place, grain: f64) -> Option<Spot> {
    let mm = |units: f64| units * grain / f64::from(Spot::PER_MM);
    Spot::from_mm(mm(x), mm(y))
}

/// A closed stroke with further places on its longer sides.
fn split(spots: &[Spot]) -> Vec<Spot> {
    let next = spots.iter().cycle().skip(1);
    let sides = spots.iter().zip(next).flat_map(|(from, to)| {
        let parts = (from.distance(*to) / LONGEST_SIDE).ceil().max(1.0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
        let count = parts as u32;
        let ((fx, fy), (tx, ty)) = (from.mm(), to.mm());
        (0..count).filter_map(move |n| {
            let share = f64::from(n) / parts;
            Spot::from_mm(fx + (tx - fx) * share, fy + (ty - fy) * share)
        })
    });
    sides.collect()
}

#[cfg(test)]
mod tests;

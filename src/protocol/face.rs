//! The face as it is drawn: four views at a standard size, the zones of the trade in them, and the
//! one length by which a view is put to the size of the patient.
//!
//! All places are hundredths of a millimetre to the right and down, from the base of the nose
//! ([`landmark::SUBNASALE`]). [`View::Front`] and [`View::Lips`] share their places: what is drawn
//! in one lies at the same place in the other. [`View::Right`] is [`View::Left`] in a mirror.
//!
//! Eyes, nose, mouth and the height of the face follow a published table ([`landmark`]). All else,
//! above all where a forehead, a cheek or a temple ends, is this app's own proposal.
//!
//! # What a flat drawing cannot do
//!
//! Skin curves away from the viewer and a drawing does not, so a zone measures less on paper than
//! on the face. A measured length only scales the drawing, it does not bend it: its area is a
//! sketch of the skin's. As drawn at the standard size, in mm², beside [`Zone::usual`]:
//!
//! | zone | usual | front | three-quarter |
//! |---|---|---|---|
//! | upper lip | 1170 | 1156 | 900 |
//! | lower lip | 1170 | 1214 | 932 |
//! | nasolabial fold | 750 | 550 | 639 |
//! | nose tip | 600 | 525 | 473 |
//! | ala | 400 | 178 | 214 |
//! | glabella | 1000 | 779 | 653 |
//! | forehead | 5000 | 3392 | 2620 |
//! | temple | 2000 | 395 | 924 |
//! | cheek | 3000 | 1306 | 2880 |
//! | chin | 1200 | 1104 | 821 |
//! | tear trough | 500 | 393 | 449 |
//!
//! More than a third below the usual are those seen aslant: from the front the ala, the cheek and
//! the temple, which run back along the head; in three-quarter view, where every width is
//! foreshortened and the far side is out of sight, forehead and glabella. Temple and ala stay so in
//! every view: of the temple the hair covers the rest, and the ala rolls in under the nose.

mod curve;
pub mod landmark;
mod measure;
mod places;

pub use measure::{Landmark, Measure};

use super::zone::Zone;
use crate::plane::Spot;
use serde::{Deserialize, Serialize};

/// From where a face is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum View {
    /// From the front. The patient's left is on the viewer's right.
    Front,
    /// Three-quarter, the patient's left side turned to the viewer: the nose points to the
    /// viewer's left.
    Left,
    /// Three-quarter, the patient's right side turned to the viewer: the nose points to the
    /// viewer's right.
    Right,
    /// From the front, close up: from the nose to the chin.
    Lips,
}

/// How far beside a zone a finger may land and still mean it, in hundredths of a millimetre: a
/// little more than the gaps between the zones.
const BESIDE: i32 = 150;

impl View {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Front, Self::Left, Self::Right, Self::Lips];

    /// The least and the greatest corner of what is drawn.
    pub const fn bounds(self) -> (Spot, Spot) {
        let (left, top, right, bottom) = match self {
            Self::Front => (-7_200, -11_900, 7_200, 7_400),
            Self::Left => (-3_000, -11_900, 11_000, 7_400),
            Self::Right => (-11_000, -11_900, 3_000, 7_400),
            Self::Lips => (-4_450, -2_750, 4_450, 7_050),
        };
        (Spot::new(left, top), Spot::new(right, bottom))
    }

    /// The one length that puts the view to the size of the patient, as long as it is drawn. Across
    /// the mouth where the face is seen from the front; along the nose where widths are
    /// foreshortened.
    pub const fn measure(self) -> Measure {
        match self {
            Self::Front | Self::Lips => Landmark::MouthWidth.standard(),
            Self::Left | Self::Right => Landmark::NasalHeight.standard(),
        }
    }

    /// The zones that are seen, each as a ring that goes from its last place back to its first. A
    /// zone with two sides stands here once for each side seen. In [`View::Left`] and
    /// [`View::Right`] it is the side turned to the viewer: the other belongs to the other view.
    ///
    /// Rings are simple, lie within the bounds and do not overlap; the two lips meet along the line
    /// of the mouth. Shown 312 CSS pixels wide, each is at least 48 across its narrower direction,
    /// but for those that are narrower on the face itself: ala, fold, tear trough and, from the
    /// front, temple have at least 24.
    pub fn zones(self) -> Vec<(Zone, Vec<Spot>)> {
        let drawn = |(zone, places): &(Zone, &[i16])| (*zone, curve::ring(curve::spots(places)));
        let across =
            |(zone, ring): (Zone, Vec<Spot>)| (zone, ring.into_iter().map(mirrored).collect());
        match self {
            Self::Front => {
                let middle = places::MIDDLE.iter().map(|(zone, half)| {
                    (*zone, curve::ring(curve::both_halves(curve::spots(half))))
                });
                let sides =
                    places::SIDE.iter().map(drawn).flat_map(|one| [across(one.clone()), one]);
                middle.chain(sides).collect()
            }
            Self::Left => places::LEFT.iter().map(drawn).collect(),
            Self::Right => places::LEFT.iter().map(drawn).map(across).collect(),
            Self::Lips => {
                let mut zones = Self::Front.zones();
                zones.retain(|(zone, _)| close_up(*zone));
                zones
            }
        }
    }

    /// The zone at a place with its ring, or the one a finger's slip beside it; `None` where there
    /// is none. On the line of the mouth it is one of the lips.
    pub fn shape_at(self, spot: Spot) -> Option<(Zone, Vec<Spot>)> {
        let mut zones = self.zones();
        let near = [(0, 0), (0, -BESIDE), (0, BESIDE), (-BESIDE, 0), (BESIDE, 0)];
        let hit = near.into_iter().find_map(|(dx, dy)| {
            let near = Spot::new(spot.x.saturating_add(dx), spot.y.saturating_add(dy));
            zones.iter().position(|(_, ring)| curve::inside(ring, near))
        })?;
        Some(zones.swap_remove(hit))
    }

    /// The zone at a place, as [`View::shape_at`].
    pub fn zone_at(self, spot: Spot) -> Option<Zone> {
        self.shape_at(spot).map(|(zone, _)| zone)
    }
}

/// Whether the close-up of the lips shows a zone.
const fn close_up(zone: Zone) -> bool {
    matches!(
        zone,
        Zone::UpperLip
            | Zone::LowerLip
            | Zone::NasolabialFold
            | Zone::NoseTip
            | Zone::Ala
            | Zone::Chin
    )
}

/// The place on the other side of the face.
const fn mirrored(spot: Spot) -> Spot {
    Spot::new(-spot.x, spot.y)
}

#[cfg(test)]
mod tests;

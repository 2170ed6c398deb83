//! A photo that is drawn on, and how its scale is found: the corners of a card, or the ends of a
//! known length, dragged into place.

use super::hand::Place;
use crate::care::territory::Photo;
use crate::measure::Length;
use crate::plane::{Dot, Extent, Scale, Sketch};
use crate::protocol::card::ID_1;
use serde::{Deserialize, Serialize};

/// By what the scale is found.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum By {
    /// A card beside the skin.
    #[default]
    Card,
    /// A known length.
    Length,
}

/// How wide the card or the length is shown before it is dragged, as a share of the photo's width.
const WIDE: f64 = 0.5;

/// A mark in the photo, and whether anyone has put it into place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    /// Where it is.
    pub dot: Dot,
    /// Whether it was put there.
    pub placed: bool,
}

/// A photo and its scale, as far as it is found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shot {
    /// The photo.
    pub photo: Photo,
    /// By what its scale is found.
    pub by: By,
    corners: [Mark; 4],
    ends: [Mark; 2],
    /// How long the known length is.
    pub length: Option<Length>,
    /// Whether the scale was taken, so that it can be drawn on.
    pub settled: bool,
    /// What is drawn on it.
    pub sketch: Sketch,
}

impl Shot {
    /// A photo without a scale.
    pub fn new(photo: Photo) -> Self {
        let (width, height) = (f64::from(photo.extent.width), f64::from(photo.extent.height));
        // Neither card nor length taller than the photo, whatever its shape.
        let x = width * WIDE / 2.0;
        let y = (x * f64::from(ID_1.height) / f64::from(ID_1.width)).min(height / 2.0);
        let mark = |dx: f64, dy: f64| Mark {
            dot: dot_at((width / 2.0 + dx, height / 2.0 + dy), photo.extent),
            placed: false,
        };
        Self {
            photo,
            by: By::default(),
            corners: [mark(-x, -y), mark(x, -y), mark(x, y), mark(-x, y)],
            ends: [mark(-x, 0.0), mark(x, 0.0)],
            length: None,
            settled: false,
            sketch: Sketch::default(),
        }
    }

    /// A photo whose scale was found before.
    pub fn measured(photo: Photo, scale: &Scale, sketch: Sketch) -> Self {
        let shot = Self { settled: true, sketch, ..Self::new(photo) };
        let put = |dot| Mark { dot, placed: true };
        match scale {
            Scale::Card(corners) => Self { by: By::Card, corners: corners.map(put), ..shot },
            Scale::Known { ends, length } => {
                Self { by: By::Length, ends: ends.map(put), length: Some(*length), ..shot }
            }
        }
    }

    /// The marks that are dragged, in order.
    pub fn marks(&self) -> &[Mark] {
        match self.by {
            By::Card => &self.corners,
            By::Length => &self.ends,
        }
    }

    /// How many of them nobody has put into place.
    pub fn to_place(&self) -> usize {
        self.marks().iter().filter(|mark| !mark.placed).count()
    }

    /// Puts one of them into place, in pixels of the photo; what lies outside is brought to its edge.
    pub fn put(&mut self, place: usize, at: Place) {
        let dot = dot_at(at, self.photo.extent);
        self.put_back(place, Mark { dot, placed: true });
    }

    /// Puts one back to where it was.
    pub fn put_back(&mut self, place: usize, before: Mark) {
        let marks: &mut [Mark] = match self.by {
            By::Card => &mut self.corners,
            By::Length => &mut self.ends,
        };
        if let Some(mark) = marks.get_mut(place) {
            *mark = before;
        }
    }

    /// The scale as the marks stand; `None` for a length that is not told.
    pub fn scale(&self) -> Option<Scale> {
        match self.by {
            By::Card => Some(Scale::Card(self.corners.map(|mark| mark.dot))),
            By::Length => {
                let ends = self.ends.map(|mark| mark.dot);
                self.length.map(|length| Scale::Known { ends, length })
            }
        }
    }
}

/// The nearest place within a photo.
fn dot_at((x, y): Place, extent: Extent) -> Dot {
    let tenths = |pixels: f64, side: u32| {
        let within = pixels.clamp(0.0, f64::from(side)) * f64::from(Dot::PER_PIXEL);
        #[expect(clippy::cast_possible_truncation, reason = "saturates, and NaN becomes zero")]
        let whole = within.round() as i32;
        whole
    };
    Dot { x: tenths(x, extent.width), y: tenths(y, extent.height) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Hash;
    use crate::plane::rectify;
    use crate::protocol::card::LIMITS;

    fn shot(width: u32, height: u32) -> Shot {
        Shot::new(Photo { name: Hash::of(b"photo"), extent: Extent { width, height } })
    }

    #[test]
    fn what_is_shown_first_is_a_card_in_the_middle_that_nobody_has_placed() {
        for (width, height) in [(1_200, 1_600), (1_600, 1_200), (1_600, 200)] {
            let shot = shot(width, height);
            assert_eq!(shot.to_place(), 4);
            let rectified =
                rectify(&shot.scale().unwrap(), shot.photo.extent, ID_1, &LIMITS).map(|_| ());
            assert_eq!(rectified.is_ok(), height > 200, "{rectified:?}");
        }
    }

    #[test]
    fn a_mark_is_placed_within_the_photo_and_put_back() {
        let mut shot = shot(1_200, 1_600);
        let before = shot.marks()[2];
        shot.put(2, (1_300.0, -7.0));
        assert_eq!(shot.marks()[2], Mark { dot: Dot { x: 12_000, y: 0 }, placed: true });
        assert_eq!(shot.to_place(), 3);
        shot.put_back(2, before);
        assert_eq!(shot.to_place(), 4);
        shot.put(9, (0.0, 0.0));
        shot.put(0, (f64::NAN, 12.34));
        assert_eq!(shot.marks()[0].dot, Dot { x: 0, y: 123 });
    }

    #[test]
    fn a_length_is_no_scale_before_it_is_told() {
        let mut shot = shot(1_200, 1_600);
        shot.by = By::Length;
        assert_eq!((shot.scale(), shot.to_place()), (None, 2));
        shot.length = Some(Length::mm(52));
        shot.put(0, (100.0, 100.0));
        shot.put(1, (700.0, 100.0));
        let again = Shot::measured(shot.photo, &shot.scale().unwrap(), Sketch::default());
        assert_eq!((again.scale(), again.to_place(), again.by), (shot.scale(), 0, By::Length));
    }
}

//! Which part of a picture is shown. For drawing only: floats of picture units and of paper.

/// The width of the paper that every drawing is laid out on.
pub const PAPER: f64 = 312.0;

/// A part of a picture, in the picture's own units, shown on paper [`PAPER`] wide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Its left end in the picture.
    pub left: f64,
    /// Its top in the picture.
    pub top: f64,
    /// Its width in the picture.
    pub width: f64,
    /// Its height in the picture.
    pub height: f64,
}

impl Frame {
    /// Nothing of anything.
    pub const NONE: Self = Self { left: 0.0, top: 0.0, width: 0.0, height: 0.0 };

    /// The least frame that holds the places, with room of `room` times the longer side around them
    /// and no side less than `least` times the other.
    pub fn around(
        places: impl IntoIterator<Item = (f64, f64)>,
        room: f64,
        least: f64,
    ) -> Option<Self> {
        let mut places = places.into_iter().filter(|(x, y)| x.is_finite() && y.is_finite());
        let first = places.next()?;
        let (low, high) = places.fold((first, first), |(low, high), (x, y)| {
            ((low.0.min(x), low.1.min(y)), (high.0.max(x), high.1.max(y)))
        });
        let (width, height) = (high.0 - low.0, high.1 - low.1);
        let longer = width.max(height).max(f64::MIN_POSITIVE);
        let (wide, tall) = (width.max(height * least), height.max(width * least));
        let margin = longer * room;
        Some(Self {
            left: low.0 - (wide - width) / 2.0 - margin,
            top: low.1 - (tall - height) / 2.0 - margin,
            width: wide + 2.0 * margin,
            height: tall + 2.0 * margin,
        })
    }

    /// Paper units that one picture unit takes.
    pub fn scale(self) -> f64 {
        PAPER / self.width
    }

    /// The height of the paper.
    pub fn paper_height(self) -> f64 {
        self.height * self.scale()
    }

    /// From the picture onto the paper.
    pub fn to_paper(self, (x, y): (f64, f64)) -> (f64, f64) {
        ((x - self.left) * self.scale(), (y - self.top) * self.scale())
    }

    /// From the paper into the picture.
    pub fn to_picture(self, (x, y): (f64, f64)) -> (f64, f64) {
        (x / self.scale() + self.left, y / self.scale() + self.top)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_places_lie_on_the_paper_and_come_back() {
        let places = [(100.0, 900.0), (300.0, 950.0), (180.0, 910.0)];
        let frame = Frame::around(places, 0.1, 0.6).unwrap();
        assert!((frame.height / frame.width - 0.7).abs() < 0.08, "{frame:?}");
        for place in places {
            let (x, y) = frame.to_paper(place);
            assert!((0.0..=PAPER).contains(&x) && (0.0..=frame.paper_height()).contains(&y));
            let back = frame.to_picture((x, y));
            assert!((back.0 - place.0).hypot(back.1 - place.1) < 1e-9);
        }
        assert_eq!(Frame::around([], 0.1, 0.6), None);
    }
}

//! The skin without blood: how large it is and how many points an even grid lays on it.

mod outlined;

pub use outlined::{Ground, Outlined, Photo};

use crate::measure::order;
use crate::measure::{Area, Length};
use crate::plane::{Grid, Outline};
use crate::protocol::Protocol;
use crate::protocol::zone::Zone;
use serde::{Deserialize, Serialize};

/// How the size is known.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Size {
    /// Measured or estimated, and typed.
    Typed(Area),
    /// Longest side and the one across.
    Rectangle {
        /// Longest side.
        length: Length,
        /// Across it.
        width: Length,
    },
    /// The usual size of the named zones.
    Usual,
    /// Drawn round, and measured from the drawing.
    Outlined(Box<Outlined>),
}

/// The skin to be flooded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Territory {
    zones: Vec<Zone>,
    size: Size,
}

/// Why a territory is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Neither a zone nor a size.
    Empty,
    /// Larger than a face.
    LargerThanFace {
        /// The size given.
        given: Area,
        /// The whole face, at most.
        most: Area,
    },
}

impl Territory {
    /// A territory of named zones and a size.
    ///
    /// # Errors
    /// [`Refused`] if there is no skin in it or more than a face has.
    pub fn new(mut zones: Vec<Zone>, size: Size, protocol: &Protocol) -> Result<Self, Refused> {
        order::sort(&mut zones);
        zones.dedup();
        let territory = Self { zones, size };
        let given = territory.area();
        if given.is_zero() {
            Err(Refused::Empty)
        } else if given > protocol.area_limit {
            Err(Refused::LargerThanFace { given, most: protocol.area_limit })
        } else {
            Ok(territory)
        }
    }

    /// Its surface.
    pub fn area(&self) -> Area {
        match &self.size {
            Size::Typed(area) => *area,
            Size::Rectangle { length, width } => length.by(*width),
            Size::Outlined(drawn) => drawn.outline.area(),
            Size::Usual => self.zones.iter().map(|zone| zone.usual().0).sum(),
        }
    }

    /// How its size is known.
    pub const fn size(&self) -> &Size {
        &self.size
    }

    /// What was drawn, if it was drawn.
    pub fn outlined(&self) -> Option<&Outlined> {
        match &self.size {
            Size::Outlined(drawn) => Some(drawn),
            Size::Typed(_) | Size::Rectangle { .. } | Size::Usual => None,
        }
    }

    /// Its outline, if it was drawn.
    pub fn outline(&self) -> Option<&Outline> {
        self.outlined().map(|drawn| &drawn.outline)
    }

    /// The zones named.
    pub fn zones(&self) -> &[Zone] {
        &self.zones
    }

    /// How many facial areas it takes in, as dosed by area; `None` if no zone was named.
    pub fn facial_areas(&self) -> Option<u32> {
        let mut areas: Vec<Zone> = self.zones.iter().map(|zone| zone.facial_area()).collect();
        order::sort(&mut areas);
        areas.dedup();
        u32::try_from(areas.len()).ok().filter(|count| *count > 0)
    }

    /// Whether the size is odd enough to ask again.
    pub fn questioned(&self, protocol: &Protocol) -> bool {
        self.area() > protocol.area_question
    }

    /// The grid on it with this spacing, of the kind and with the margin in force; `None` where no
    /// outline says where its points would be.
    pub fn grid(&self, spacing: Length, protocol: &Protocol) -> Option<Grid> {
        self.outlined().map(|drawn| drawn.grid(spacing, protocol))
    }

    /// Points of a grid with this spacing: those laid inside the outline; without one, the surface
    /// over the square of the spacing, rounded up, so that no skin is left out.
    pub fn points(&self, spacing: Length, protocol: &Protocol) -> u32 {
        let grid = self.grid(spacing, protocol);
        let points = grid.map_or_else(
            || self.area().needs(spacing.by(spacing)),
            |grid| grid.spots().len() as u64,
        );
        u32::try_from(points).unwrap_or(u32::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn territory(zones: &[Zone], size: Size) -> Result<Territory, Refused> {
        Territory::new(zones.to_vec(), size, &Protocol::default())
    }

    #[test]
    fn a_rectangle_and_its_grid() {
        let size = Size::Rectangle { length: Length::mm(40), width: Length::mm(31) };
        let skin = territory(&[], size).unwrap();
        assert_eq!(skin.area(), Area::mm2(1_240));
        assert_eq!(skin.points(Length::mm(10), &Protocol::default()), 13);
        assert_eq!(skin.facial_areas(), None);
    }

    #[test]
    fn tip_and_wing_are_one_nose() {
        let zones = [Zone::NoseTip, Zone::Ala, Zone::UpperLip, Zone::UpperLip];
        let skin = territory(&zones, Size::Usual).unwrap();
        assert_eq!(skin.facial_areas(), Some(2));
        assert_eq!(skin.zones().len(), 3);
    }

    #[test]
    fn no_skin_and_more_than_a_face_are_refused() {
        assert_eq!(territory(&[], Size::Usual), Err(Refused::Empty));
        let given = Area::cm2(601);
        let most = Protocol::default().area_limit;
        assert_eq!(
            territory(&[], Size::Typed(given)),
            Err(Refused::LargerThanFace { given, most })
        );
        assert!(
            territory(&[], Size::Typed(Area::cm2(101))).unwrap().questioned(&Protocol::default())
        );
    }
}
